//! What both programs share, `coneyard` and `coneyard-workshop`: files, texts, the site as it is
//! served, a ride, and trouble in one sentence.

pub mod files;
pub mod hosts;
pub mod listen;
pub mod names;
#[cfg(feature = "tls")]
pub mod own_folder;
#[cfg(feature = "drives")]
pub mod riding;
pub mod site;
pub mod texts;
#[cfg(feature = "tls")]
pub mod tls;
pub mod trouble;
