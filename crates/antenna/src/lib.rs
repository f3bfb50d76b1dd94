//! Antennas, their feeds and feeders.
