//! Published tables, each file with its source. Nothing here is computed.

pub mod cameras;
pub mod illuminant_tables;
pub mod observer;
