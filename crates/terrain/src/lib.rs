//! Ground: heights, water, cover, people.
