//! Levels of programme and of sound.

use crate::define::quantity;
use crate::locale::Digits;
use crate::unit::{Law, Range};

quantity! {
    /// An analogue level over 0.775 V, in dBu.
    LevelDbu {
        name: "level-dbu",
        expected: "an analogue level such as `4 dBu`",
        examples: ["4 dBu", "-48 dBu"],
        units: { "dBu" = Law::Tens(0) => dbu, from_dbu; }
        read_only: {}
        shown: ["dBu"], digits: Digits::AtMost(1),
        range: Range::ANY,
        bare: ["dB"]
    }
}

quantity! {
    /// A digital level under full scale, in dBFS.
    LevelDbfs {
        name: "level-dbfs",
        expected: "a digital level such as `-18 dBFS`",
        examples: ["-18 dBFS"],
        units: { "dBFS" = Law::Tens(0) => dbfs, from_dbfs; }
        read_only: {}
        shown: ["dBFS"], digits: Digits::AtMost(1),
        range: Range::ANY,
        bare: ["dB"]
    }
}

quantity! {
    /// A multiplex power over that of a sine of ±19 kHz deviation, in dBr.
    LevelDbr {
        name: "level-dbr",
        expected: "a multiplex power such as `0 dBr`",
        examples: ["0 dBr", "-0.4 dBr"],
        units: { "dBr" = Law::Tens(0) => dbr, from_dbr; }
        read_only: {}
        shown: ["dBr"], digits: Digits::Decimals(1),
        range: Range::ANY,
        bare: ["dB"]
    }
}

quantity! {
    /// A loudness of programme, in LUFS.
    Loudness {
        name: "loudness",
        expected: "a loudness such as `-23 LUFS`",
        examples: ["-23 LUFS"],
        units: { "LUFS" = Law::Tens(0) => lufs, from_lufs; }
        read_only: {}
        shown: ["LUFS"], digits: Digits::AtMost(1),
        range: Range::ANY,
        bare: ["dB"]
    }
}

quantity! {
    /// A sound pressure level over 20 µPa, in dB SPL.
    SoundLevel {
        name: "sound-level",
        expected: "a sound level such as `85 dB SPL`",
        examples: ["85 dB SPL", "25 dB(A)"],
        units: { "dB SPL" ["dBSPL"] = Law::Tens(0) => db_spl, from_db_spl; }
        read_only: { "dB(A)" ["dBA"] = Law::Tens(0); }
        shown: ["dB SPL"], digits: Digits::AtMost(0),
        range: Range::ANY,
        bare: ["dB"]
    }
}
