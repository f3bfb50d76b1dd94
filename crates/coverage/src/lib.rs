//! Who hears it: losses round a site, the people served by any antenna and power, the field at a place, maps and outlines,
//! interference, and where a mast should stand.
//!
//! One arrow: a [`World`] and a [`Study`] make a [`LossField`], slow and free of power and pattern. With an [`ErpTable`] and
//! what is [`Wanted`] it answers in milliseconds; through a [`CoverageIndex`] in microseconds.
//!
//! What changes cheaply is cheap: many frequencies or percentages of time come from one walk ([`LossField::compute_each`]), and
//! another antenna height, frequency or receiving rule from a [`Survey`] that keeps the ground ([`LossField::from_survey`]); both
//! equal a computation from scratch.
//!
//! | room | holds |
//! |---|---|
//! | [`world`], [`feed`] | what is asked of the ground; what a cache key rests on |
//! | [`study`], [`lattice`], [`cover_row`] | what is computed, where receivers stand, at which height |
//! | [`survey`], [`computing`] | ground kept in memory; losses along the radials, for one study or many |
//! | [`loss_field`], [`listeners`], [`stored`] | losses, people, and both as bytes |
//! | [`erp`], [`wanted`], [`served`], [`index`] | radiated power, wanted fields, people and land served |
//! | [`place`] | the field at one place, term by term, and what stands in the way |
//! | [`listening`] | the people of an index as the audience an antenna is shaped for |
//! | [`raster`], [`mod@contours`] | maps |
//! | [`differences`] | one prediction against another |
//! | [`interference`], [`heights`], [`masts`] | other stations, effective heights, the best hills |

pub mod computing;
pub mod contours;
pub mod control;
pub mod cover_row;
pub mod differences;
pub mod distances;
pub mod erp;
pub mod error;
pub mod feed;
pub mod heights;
pub mod index;
pub mod interference;
pub mod lattice;
pub mod listeners;
pub mod listening;
pub mod loss_field;
pub mod masts;
pub mod place;
pub mod raster;
mod refusals;
pub mod second;
pub mod served;
pub mod shore;
pub mod stored;
pub mod study;
pub mod survey;
mod walk;
pub mod wanted;
pub mod world;

pub use contours::{Contour, contours};
pub use control::{Control, Progress};
pub use cover_row::{CoverRow, CoverRows, ReceivingRule};
pub use differences::Differences;
pub use distances::DistanceTowards;
pub use erp::{ErpTable, ReceiverPlane};
pub use error::CoverageError;
pub use feed::Feed;
pub use heights::{Haat, HeightTowards, effective_height_to, effective_heights, haat};
pub use index::{Aim, CoverageIndex};
pub use interference::{Interferer, Usable, usable_field};
pub use lattice::{Azimuths, Lattice};
pub use listeners::{Listeners, PeopleSource};
pub use listening::Listening;
pub use loss_field::{LossField, Sample, Shares};
pub use masts::{MastCell, Masts, Search, Target, best_masts};
pub use place::{AtPlace, Obstacle, Term, TermKind, at_place};
pub use raster::{FieldRaster, NODATA, Paint};
pub use second::itm_loss_db;
pub use served::{Served, ServedPart};
pub use shore::shares_of_land;
pub use stored::StoredFieldError;
pub use study::{Study, Walker};
pub use survey::Survey;
pub use wanted::{
    LocationSpread, MODEL_ERROR_DB, Mode, SQUARE_M, Situation, Spread, Threshold, Wanted, WantedFields,
    bs412_rows,
};
pub use world::{GroundWorld, World};
