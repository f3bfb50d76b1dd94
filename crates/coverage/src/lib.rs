//! Who hears it.
