//! Country profiles: what the rules of a country ask, as data with sources. Two generic ones come with the program;
//! a user forks them.

use crate::document::Node;
use crate::known::Mark;
use crate::read::{Faults, FromNode, TableReader};
use quantity::{FieldStrength, Frequency, LevelDbr, PowerDensity, TimeConstant, Voltage};

/// A value with where it stands and how good that is.
#[derive(Debug, Clone, PartialEq)]
pub struct Cited<T> {
    /// The value.
    pub value: T,
    /// Standard and clause, or whose practice.
    pub source: String,
    /// How good the source is.
    pub mark: Mark,
}

impl<T: FromNode> FromNode for Cited<T> {
    fn from_node(node: &Node, path: &str, faults: &mut Faults) -> Option<Self> {
        let table = TableReader::open(node, path, faults)?;
        let value = table.field::<T>("value", faults);
        let source = table.field::<String>("source", faults);
        let mark = table.field::<Mark>("mark", faults);
        table.close(&["value", "source", "mark"], faults);
        Some(Cited {
            value: value?,
            source: source?,
            mark: mark?,
        })
    }
}

impl<T: serde::Serialize> serde::Serialize for Cited<T> {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        use serde::ser::SerializeStruct;
        let mut record = to.serialize_struct("Cited", 3)?;
        record.serialize_field("value", &self.value)?;
        record.serialize_field("source", &self.source)?;
        record.serialize_field("mark", &self.mark)?;
        record.end()
    }
}

impl<T: schemars::JsonSchema> schemars::JsonSchema for Cited<T> {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        format!("Cited_{}", T::schema_name()).into()
    }
    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "object", "additionalProperties": false,
            "properties": { "value": generator.subschema_for::<T>(), "source": { "type": "string" },
                "mark": generator.subschema_for::<Mark>() },
            "required": ["value", "source", "mark"] })
    }
}

crate::record! {
    /// What a country's rules ask.
    pub struct CountryProfile {
        /// Its id.
        pub id: String,
        /// What it is called in papers.
        pub name: String,
        /// Pre-emphasis.
        pub pre_emphasis: Cited<TimeConstant>,
        /// Peak deviation.
        pub deviation: Cited<Frequency>,
        /// The most multiplex power, averaged over 60 s; absent where no rule limits it.
        pub mpx_power: Option<Cited<LevelDbr>>,
        /// Raster of carriers.
        pub channel_raster: Cited<Frequency>,
        /// Lowest carrier of the band.
        pub band_from: Cited<Frequency>,
        /// Highest carrier of the band.
        pub band_to: Cited<Frequency>,
        /// Exposure of the public, power density.
        pub exposure_public: Cited<PowerDensity>,
        /// Exposure of the public, field.
        pub exposure_public_field: Cited<FieldStrength>,
        /// Exposure of workers, power density.
        pub exposure_workers: Cited<PowerDensity>,
        /// Exposure of workers, field.
        pub exposure_workers_field: Cited<FieldStrength>,
        /// Mains, phase to neutral.
        pub mains_voltage: Cited<Voltage>,
        /// Mains frequency.
        pub mains_frequency: Cited<Frequency>,
    }
}
