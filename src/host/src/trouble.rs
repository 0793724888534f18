//! Why a command did not do what it was asked: one sentence, and the exit code that goes with it.

use core::fmt;
use std::process::ExitCode;

use coneyard_core::outside::BadInput;

/// What went wrong, told apart by whose fault it is.
#[derive(Debug)]
pub enum Trouble {
    /// A file or an argument is not what it should be: exit code 2.
    Input(String),
    /// A run was read, and its drive did not come out again: exit code 3.
    Differs(String),
    /// Something on this computer: a port, a disk, a compiler: exit code 1.
    Here(String),
}

impl Trouble {
    /// The program's exit code.
    pub fn exit_code(&self) -> u8 {
        match self {
            Self::Here(_) => 1,
            Self::Input(_) => 2,
            Self::Differs(_) => 3,
        }
    }

    /// Trouble with a file or folder on this computer: what was being done, where, and why not.
    pub fn with_path(doing: &str, path: &std::path::Path, why: &dyn fmt::Display) -> Self {
        Self::Here(format!("{doing} {}: {why}", path.display()))
    }
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (Self::Input(sentence) | Self::Differs(sentence) | Self::Here(sentence)) = self;
        f.write_str(sentence)
    }
}

/// Ends a program: says what went wrong, if anything did, and gives the exit code: 0 done, 1 something
/// on this computer went wrong, 2 bad input, 3 a run that does not reproduce.
pub fn exit(program: &str, outcome: Result<(), Trouble>) -> ExitCode {
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(trouble) => {
            eprintln!("{program}: {trouble}");
            ExitCode::from(trouble.exit_code())
        }
    }
}

impl From<BadInput> for Trouble {
    fn from(bad: BadInput) -> Self {
        Self::Input(bad.to_string())
    }
}
