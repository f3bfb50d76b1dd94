//! The terms on which the station is offered.

use crate::value::Date;

crate::record! {
    /// The terms on which the station is offered; what is left out is printed as still to be agreed.
    pub struct Terms {
        /// Who makes the offer.
        pub supplier: Option<String>,
        /// The last day on which it can be accepted.
        pub valid_until: Option<Date>,
        /// The day by which everything is delivered.
        pub delivery: Option<Date>,
        /// How it is paid, in words.
        pub payment: Option<String>,
        /// What is warranted and how long, in words.
        pub warranty: Option<String>,
    }
}
