//! This account's folder for what the program keeps: records of classes, the authority of its certificates.

use std::path::{Path, PathBuf};

use etcetera::{AppStrategy, AppStrategyArgs, choose_app_strategy};

use crate::trouble::Trouble;

/// Where it is.
///
/// # Errors
/// One sentence that names `option`, by which another place is given, when this account has no such folder.
pub fn own_folder(option: &str) -> Result<PathBuf, Trouble> {
    let ours = AppStrategyArgs {
        top_level_domain: "org".to_owned(),
        author: "coneyard".to_owned(),
        app_name: "coneyard".to_owned(),
    };
    let folders = choose_app_strategy(ours).map_err(|e| {
        Trouble::Here(format!(
            "this account has no folder for data ({e}): name another place with {option}"
        ))
    })?;
    Ok(folders.data_dir())
}

/// Makes a folder that is for this account alone.
///
/// # Errors
/// What the file system says.
pub fn make_private(folder: &Path) -> std::io::Result<()> {
    let mut builder = std::fs::DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    builder.create(folder)
}
