//! Drives that were cut off, as they are found again.

use super::attempt::Attempt;
use super::drive::{CutDrive, Drive, Place};
use super::keeper::{Keeper, Kept};

/// What is found under the name of a drive.
#[derive(Clone, Debug, PartialEq)]
// One of them at a time, and taken apart at once.
#[allow(clippy::large_enum_variant)]
pub enum Found {
    /// Nothing.
    Nothing,
    /// The drive, with what was driven of it.
    Cut(CutDrive),
    /// Something that cannot be read: the drive itself, or a piece of it.
    Unreadable,
}

/// Drives that nobody is driving.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// In the order of their names, which is that of their beginning.
    pub drives: Vec<CutDrive>,
    /// There are others, which somebody is driving.
    pub others: bool,
    /// So many cannot be read; they are left as they are.
    pub unreadable: usize,
}

/// How far a part of a pre-test that is not finished has come.
#[derive(Clone, Debug, PartialEq)]
// One of them at a time, and taken apart at once.
#[allow(clippy::large_enum_variant)]
pub enum PartSoFar {
    /// Nothing was driven of it.
    Nothing,
    /// It was cut off.
    Cut(CutDrive),
    /// Somebody is driving it elsewhere.
    Elsewhere,
    /// It is there and cannot be read.
    Unreadable,
}

impl Kept {
    /// The drive of all its pieces. One that is missing or cannot be read makes it unreadable: what
    /// comes after it is then another drive.
    fn whole(self) -> Found {
        let in_order = self
            .pieces
            .into_iter()
            .zip(0..)
            .map(|((number, piece), due)| piece.filter(|_| number == due));
        match (self.drive, in_order.collect::<Option<Vec<_>>>()) {
            (Some(drive), Some(pieces)) => Found::Cut(CutDrive::of(drive, pieces)),
            _ => Found::Unreadable,
        }
    }
}

/// What was driven of the drive of this name.
///
/// # Errors
/// The keeper's sentence.
pub async fn drive(keeper: &impl Keeper, id: &str) -> Result<Found, String> {
    Ok(keeper.drive(id).await?.map_or(Found::Nothing, Kept::whole))
}

/// Drives of this pre-test that are not finished.
///
/// # Errors
/// The keeper's sentence.
pub async fn drives_of(keeper: &impl Keeper, sitting: &str) -> Result<Vec<Drive>, String> {
    let is_of = |d: &Drive| d.place.as_ref().is_some_and(|p| p.sitting == sitting);
    Ok(keeper.drives().await?.all.into_iter().filter(is_of).collect())
}

/// What was driven of this part so far; `held` names the drives that somebody is driving. A drive of
/// it in which nothing was driven is dropped.
///
/// # Errors
/// The keeper's sentence.
pub async fn part(
    keeper: &impl Keeper,
    place: &Place,
    held: &[String],
) -> Result<PartSoFar, String> {
    for of_it in drives_of(keeper, &place.sitting).await? {
        if of_it.place.as_ref() != Some(place) {
            continue;
        }
        if held.contains(&of_it.id) {
            return Ok(PartSoFar::Elsewhere);
        }
        match drive(keeper, &of_it.id).await? {
            Found::Unreadable => return Ok(PartSoFar::Unreadable),
            Found::Cut(cut) if cut.ticks() > 0 => return Ok(PartSoFar::Cut(cut)),
            _ => keeper.drop_drive(&of_it.id).await?,
        }
    }
    Ok(PartSoFar::Nothing)
}

/// Drives that are not among these, which somebody is driving. One in which nothing was driven, or that
/// was only looked at, is dropped, and so is one that is among the attempts that are kept.
///
/// # Errors
/// The keeper's sentence.
pub async fn cut_drives(
    keeper: &impl Keeper,
    attempts: &[Attempt],
    held: &[String],
) -> Result<Cut, String> {
    let drives = keeper.drives().await?;
    let mut cut = Cut { drives: Vec::new(), others: false, unreadable: drives.unreadable };
    for of_them in drives.all {
        if held.contains(&of_them.id) {
            cut.others = true;
            continue;
        }
        match drive(keeper, &of_them.id).await {
            Ok(Found::Nothing) => {}
            Ok(Found::Unreadable) | Err(_) => cut.unreadable += 1,
            Ok(Found::Cut(found)) => {
                let is_kept = attempts.iter().any(|a| a.id == of_them.id);
                // A part of a pre-test counts from its first tick on, whatever was done in it.
                let is_nothing = found.drive.place.is_none() && found.was_only_looked_at();
                if found.ticks() == 0 || is_nothing || is_kept {
                    // What cannot be dropped now is not shown, and dropped another time.
                    let _ = keeper.drop_drive(&of_them.id).await;
                } else {
                    cut.drives.push(found);
                }
            }
        }
    }
    Ok(cut)
}
