//! What a lesson shows, and what a recorded run shows beside another: it is driven, and drawn in few numbers.

use coneyard_core::course::{Course, shipped};
use coneyard_core::debrief::Debrief;
use coneyard_core::lesson::scene::{Asked, Drawn, Scene, drawn, region};
use coneyard_core::outside::BadInput;
use coneyard_core::rules::SHIPPED;
use coneyard_core::run::{DriveSetup, Run};
use coneyard_core::time::TICK_RATE;
use coneyard_core::truck::spec::{self, TruckSpec};

use crate::{drive_again, ride};

/// A drive of a lesson.
#[derive(Clone, Debug)]
pub struct Shown {
    /// As a page draws it.
    pub drawn: Drawn,
    /// What the whole of it came to.
    pub debrief: Debrief,
}

/// Has it driven.
///
/// # Errors
/// One sentence when course, truck or rider are not known, or the drive is over before it is to be shown.
pub fn show(asked: &Asked) -> Result<Shown, BadInput> {
    let unknown = |what: &str, name: &str| {
        BadInput::new("the lesson", what, format!("there is none that is called {name:.40}"))
    };
    let course = shipped::text_of_any(&asked.course);
    let course = course.ok_or_else(|| unknown("course", &asked.course))?;
    let truck = spec::shipped::text(&asked.truck);
    let truck = truck.ok_or_else(|| unknown("truck", &asked.truck))?;
    let setup = DriveSetup {
        course: course.to_owned(),
        truck: truck.to_owned(),
        rules: SHIPPED.to_owned(),
        checks: shipped::checks_of(course),
        seed: asked.seed,
        who: asked.rider.clone(),
        started: String::new(),
    };
    let run = ride(&setup, &asked.rider)?;
    let mut frames = Vec::new();
    let debrief = drive_again(&run, |session| frames.push(session.frame()))?.debrief;
    let course = Course::parse(&asked.course, course.as_bytes())?;
    let truck = TruckSpec::parse(&asked.truck, truck.as_bytes())?;
    let drawn = drawn(asked, &course, &truck, &frames, &debrief.findings)
        .map_err(|why| BadInput::new("the lesson", "", why))?;
    Ok(Shown { drawn, debrief })
}

/// Draws all of a recorded run.
///
/// # Errors
/// One sentence when it cannot be driven again, or nothing was driven.
pub fn of_run(run: &Run) -> Result<Drawn, BadInput> {
    let mut frames = Vec::new();
    let found = drive_again(run, |session| frames.push(session.frame()))?.debrief.findings;
    let setup = &run.setup;
    let course = Course::parse("the run's course", setup.course.as_bytes())?;
    let truck = TruckSpec::parse("the run's truck", setup.truck.as_bytes())?;
    let whole = Asked {
        course: course.id.clone(),
        truck: truck.id.clone(),
        rider: setup.who.clone(),
        seed: setup.seed,
        from_s: 0.0,
        for_s: f64::from(run.ticks()) / f64::from(TICK_RATE),
    };
    drawn(&whole, &course, &truck, &frames, &found).map_err(|why| BadInput::new("the run", "", why))
}

/// Two drives side by side, with what each came to.
///
/// # Errors
/// As [`show`] has them.
pub fn side_by_side(asked: &[Asked; 2]) -> Result<(Scene, [Debrief; 2]), BadInput> {
    let [a, b] = asked;
    let (a, b) = (show(a)?, show(b)?);
    let sides = [a.drawn, b.drawn];
    Ok((Scene { region: region(&sides), sides }, [a.debrief, b.debrief]))
}
