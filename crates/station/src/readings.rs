//! Readings of a field test: what meters at the transmitter and a measuring set at points said.

use crate::document::Node;
use crate::read::{Fault, Faults, FromNode, join};
use crate::value::Date;
use quantity::{Azimuth, Decibels, FieldStrength, Length, Power};
use words::Message;

crate::record! {
    /// What was read of one emission.
    pub struct FieldTest {
        /// Tag of the emission; the station's first when absent.
        pub emission: Option<String>,
        /// The day.
        pub date: Option<Date>,
        /// Everything in it is invented.
        pub invented: Option<bool>,
        /// Power at the transmitter.
        pub meters: Meters,
        /// What the fields were measured with.
        pub measuring_set: MeasuringSet,
        /// The fields.
        pub points: Vec<PointReading>,
    }
}

crate::record! {
    /// Readings at the transmitter.
    pub struct Meters {
        /// Forward power it was set to; as the station has it when absent.
        pub set: Option<Power>,
        /// Forward power read.
        pub forward: Option<Power>,
        /// Reflected power read.
        pub reflected: Option<Power>,
        /// Error of both, one standard deviation.
        pub accuracy: Option<Decibels>,
    }
}

crate::record! {
    /// A measuring set, its antenna 10 m above ground or corrected to that.
    pub struct MeasuringSet {
        /// Error of its calibration, the same at all points; one standard deviation.
        pub accuracy: Option<Decibels>,
        /// How far readings at one point differ; one standard deviation.
        pub repeat: Option<Decibels>,
    }
}

crate::record! {
    /// The field at one point: a place, or an azimuth and a distance from the antenna.
    pub struct PointReading {
        /// Tag or name of a place.
        pub place: Option<String>,
        /// From the antenna, clockwise from true north.
        pub azimuth: Option<Azimuth>,
        /// From the antenna.
        pub distance: Option<Length>,
        /// The field read.
        pub field: FieldStrength,
        /// The field read there with the same set while the antenna was known to be well.
        pub before: Option<FieldStrength>,
    }
}

impl FieldTest {
    /// Reads it from a document: all complaints at once.
    ///
    /// # Errors
    /// Every fault found, in the order of the file.
    pub fn read(document: &Node) -> Result<FieldTest, Vec<Fault>> {
        let mut faults = Faults::default();
        let test = FieldTest::from_node(document, "", &mut faults);
        if let Some(test) = &test {
            test.check(document, &mut faults);
        }
        faults.0.sort_by_key(|f| f.span.start);
        match test {
            Some(test) if faults.0.is_empty() => Ok(test),
            _ => Err(faults.0),
        }
    }

    fn check(&self, document: &Node, faults: &mut Faults) {
        for (section, keys) in [
            ("meters", &["accuracy"][..]),
            ("measuring_set", &["accuracy", "repeat"][..]),
        ] {
            for key in keys {
                let node = document.get(section).and_then(|s| s.get(key));
                let value = match (section, *key) {
                    ("meters", _) => self.meters.accuracy,
                    (_, "repeat") => self.measuring_set.repeat,
                    _ => self.measuring_set.accuracy,
                };
                if let (Some(node), Some(value)) = (node, value)
                    && value.db() <= 0.0
                {
                    let what = Message::new("readings-error-above-0").quantity("given", value);
                    faults.add(node.span, &join(section, key), what, None);
                }
            }
        }
        for (key, power) in [
            ("set", self.meters.set),
            ("forward", self.meters.forward),
            ("reflected", self.meters.reflected),
        ] {
            let node = document.get("meters").and_then(|s| s.get(key));
            if let (Some(node), Some(power)) = (node, power)
                && power.w() <= 0.0
            {
                let help = Message::new("readings-power-help");
                faults.add(
                    node.span,
                    &join("meters", key),
                    Message::new("readings-no-power"),
                    Some(help),
                );
            }
        }
        if let (Some(forward), Some(reflected)) = (self.meters.forward, self.meters.reflected)
            && reflected >= forward
            && let Some(node) = document.get("meters").and_then(|s| s.get("reflected"))
        {
            let what = Message::new("readings-all-comes-back")
                .quantity("reflected", reflected)
                .quantity("forward", forward);
            faults.add(
                node.span,
                "meters.reflected",
                what,
                Some(Message::new("readings-swapped-help")),
            );
        }
        for (i, point) in self.points.iter().enumerate() {
            let by_bearing = point.azimuth.is_some() && point.distance.is_some_and(|d| d.m() > 0.0);
            let half = point.azimuth.is_some() != point.distance.is_some();
            let both = point.place.is_some() && (point.azimuth.is_some() || point.distance.is_some());
            if half || both || (point.place.is_none() && !by_bearing) {
                let span = item_span(document, i);
                faults.add(
                    span,
                    &join("points", &i.to_string()),
                    Message::new("readings-where"),
                    Some(Message::new("readings-where-help")),
                );
            }
        }
        if self.meters.forward.is_none() && self.meters.reflected.is_none() && self.points.is_empty() {
            let help = Message::new("readings-none-help");
            faults.add(document.span, "", Message::new("readings-none"), Some(help));
        }
    }
}

fn item_span(document: &Node, index: usize) -> crate::document::Span {
    match document.get("points").map(|p| &p.value) {
        Some(crate::document::Value::List(items)) => items.get(index).map_or(document.span, |n| n.span),
        _ => document.span,
    }
}
