//! Every sentence shown to a person.
