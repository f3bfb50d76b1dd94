//! Stationwright: from a brief to a proven, priced FM radio station.

fn main() {}
