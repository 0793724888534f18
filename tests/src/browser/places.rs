//! Where things are on the pages, for all browser tests: when a page changes, only this file does.
//! Nothing here is a text, so the tests mean the same in every language.

/// Home: the button that leads straight to a drive, once it knows where.
pub const DRIVE_NOW: &str = "a.button.primary.huge";
/// Home: the exercise that it leads to.
pub const DRIVE_NOW_TITLE: &str = "a.button.primary.huge small:not(:empty)";
/// Path: an exercise.
pub const EXERCISE: &str = "ol.exercises li";
/// Path: go on with a drive that was cut off.
pub const GO_ON: &str = ".cut-off a.button[href^='#/drive-on/']";
/// Path: a drive that was cut off.
pub const CUT_OFF: &str = "[aria-labelledby=cut-off-title] li";
/// Path: why a drive that was cut off cannot be gone on with.
pub const CANNOT_GO_ON: &str = "[aria-labelledby=cut-off-title] li .note";
/// The deletion of what stands on the page, and the answer to the question whether it is meant.
pub const DELETE: &str =
    ".actions:not(:has(.answers)) > button:last-of-type, .answers button:last-of-type";
/// Path: the field for a run file.
pub const IMPORT: &str = "input[type=file]";
/// Drive: the drive has begun.
pub const DRIVING: &str = "#more[data-driving]";
/// Drive: the button behind which the rest is.
pub const MORE: &str = "#more:enabled";
/// Drive: the rest, when it is shown.
pub const MENU: &str = "#menu";
/// Drive, behind the button: half of real time.
pub const HALF_PACE: &str = "#menu fieldset.segments label:nth-of-type(2)";
/// Drive, behind the button: the choices of pace.
pub const PACE: &str = "#menu fieldset.segments input";
/// Drive: it is not being kept.
pub const NOT_BEING_KEPT: &str = ".notes .note.warn";
/// Drive, by touch: where the thumb of the tiller lands.
pub const TILLER_ZONE: &str = ".zone.left";
/// Drive, by touch: where the thumb of the throttle lands.
pub const TWIST_ZONE: &str = ".zone.right";
/// Settings: the throttle is on the left and the tiller on the right.
pub const SWAP_THUMBS: &str = "[aria-labelledby=view-title] label.switch:last-of-type";
/// Drive, by touch: lowers the forks.
pub const TOUCH_FORKS_DOWN: &str = ".above.right .row:first-child button:first-child";
/// Drive, by touch: raises them.
pub const TOUCH_FORKS_UP: &str = ".above.right .row:first-child button:last-child";
/// Drive, by touch: changes sides.
pub const TOUCH_STANCE: &str = "#stance";
/// Drive, by touch: lets the arm go.
pub const TOUCH_LET_GO: &str = ".above.left .large button:first-child";
/// Drive, behind the button: one finger is enough.
pub const ONE_FINGER: &str = "#one-finger";
/// Drive, with one finger: the tiller a step to the right.
pub const STEP_RIGHT: &str = ".steps.left button:last-child";
/// Drive, with one finger: a step of the throttle, power unit first.
pub const STEP_AHEAD: &str = ".steps.right button:first-child";
/// Walk-round: all of it, once the truck is there.
pub const WALK: &str = ".walk";
/// Walk-round: what the point is called at which one stands.
pub const WALK_NAME: &str = "#walk-point-title";
/// Walk-round: what is seen of it, or what happens when it is tried.
pub const WALK_TOLD: &str = ".walk-told p";
/// Walk-round: it was answered, but not looked at for long enough.
pub const WALK_UNSEEN: &str = ".walk-state";
/// Walk-round: the box that nobody but the workshop touches, and the button that would.
pub const WALK_BOX: &str = "#walk-settings-try";
/// Walk-round: looks closer at the point, or tries it.
pub const WALK_LOOK: &str = "#walk-look";
/// Walk-round: why the answer is what it is.
pub const WALK_REASON: &str = "#walk-reason";
/// Walk-round: a note on the point.
pub const WALK_NOTE: &str = "#walk-note";
/// Walk-round: the hours, where the meter is looked at.
pub const WALK_HOURS: &str = "#walk-hours-here";
/// Walk-round: how much is left, once something was found.
pub const WALK_LEFT: &str = ".walk-left";
/// Walk-round: leads to the next point without an answer.
pub const WALK_TO_OPEN: &str = "#walk-to-open";
/// Walk-round: the truck is taken.
pub const WALK_TAKE: &str = "#walk-take";
/// Walk-round: the truck is tagged out.
pub const WALK_TAG_OUT: &str = "#walk-tag-out";
/// Walk-round: the answer to the question whether that is meant.
pub const WALK_SURE: &str = "dialog[open] #walk-decided";
/// Drive: someone was struck, and what to do next.
pub const STRUCK: &str = ".struck #struck-again";
/// Drive and replay: why it cannot be shown.
pub const WHY_NOT: &str = ".veil .why";
/// Drive, behind the button: asks how to leave.
pub const LEAVE: &str = "#leave";
/// Drive: keep it for later, in the dialog of how to leave.
pub const LEAVE_FOR_LATER: &str = "dialog[open] #keep-for-later";
/// Drive: end it and see the debrief, in the dialog of how to leave.
pub const LEAVE_TO_DEBRIEF: &str = "dialog[open] .choices button:nth-of-type(2)";
/// Pre-test: the word of the class.
pub const CLASS_WORD: &str = "#class-word";
/// Pre-test: the number of the seat.
pub const SEAT: &str = "#seat";
/// Pre-test: the double truck.
pub const PRE_TEST_DOUBLE: &str = ".begin .segments label:nth-of-type(2)";
/// Pre-test: begins it, once the rules are there.
pub const BEGIN_PRE_TEST: &str = "#start-pre-test:enabled";
/// Home and path: a pre-test that was begun.
pub const GO_ON_PRE_TEST: &str = "a.go-on-pre-test";
/// Pre-test: the part that comes next, or goes on.
pub const NEXT_PART: &str = "#next-part";
/// Pre-test: why it cannot go on.
pub const PRE_TEST_CANNOT_GO_ON: &str = "#cannot-go-on";
/// Pre-test: a part that is driven.
pub const PART_DRIVEN: &str = "ol.parts li.driven";
/// Pre-test: saves it as a file.
pub const SAVE_PRE_TEST: &str = "#save-sitting";
/// Pre-test: gives it up.
pub const GIVE_UP: &str = "#give-up";
/// Pre-test: the answer to the question whether it is meant.
pub const GIVE_UP_SURE: &str = "#give-up-sure";
/// Pre-test: what it came to.
pub const PRE_TEST_RESULT: &str = "article.sheet [data-result]";
/// Drive, in a part of a pre-test: no further pause is given.
pub const NO_PAUSE: &str = "#pause:disabled";
/// Drive, in a part of a pre-test: ends it here, in the dialog of how to leave.
pub const END_PART: &str = "dialog[open] #end-here";
/// Debrief: how the drive ended.
pub const ENDING: &str = ".verdict .ending";
/// Debrief: the run is what it says it is.
pub const REPRODUCES: &str = "section.truth:not(.bad)";
/// Debrief: another simulation made the run.
pub const OTHER_SIMULATION: &str = "#other-simulation";
/// Debrief: slower time was chosen.
pub const SLOWED: &str = "#slowed";
/// Debrief: the way to the replay.
pub const TO_REPLAY: &str = "a.button[href^='#/replay/']";
/// Debrief: the way to the pages to print.
pub const TO_PRINT: &str = "#open-print";
/// Debrief: saves the run as a file.
pub const EXPORT: &str = "#export-run";
/// Any page: attempts that are not kept.
pub const LOOSE: &str = "[data-store=loose]";
/// Any page: saves one of them as a file.
pub const SAVE_LOOSE: &str = "[data-store=loose] li button";
/// Any page: tries again to keep them.
pub const KEEP_AGAIN: &str = "#keep-again";
/// Any page: records that cannot be read.
pub const UNREADABLE: &str = "[data-store=unreadable]";
/// Any page: something was not done.
pub const UNDONE: &str = "[data-store=undone]";
/// Debrief: the way to the sheet of a walk-round.
pub const TO_SHEET: &str = "#open-sheet";
/// Debrief: what was the matter with the truck, and was missed.
pub const MISSED: &str = ".walk-defect.missed";
/// Debrief: the drawings of what was the matter, each beside the sound one.
pub const DRAWN: &str = ".walk-defect .check-picture svg";
/// Debrief: what was reported without cause.
pub const MADE_UP: &str = ".made-up li";
/// Progress: a defect, and how often it was found.
pub const BY_DEFECT: &str = "[data-defect]";
/// Progress: sensitivity and criterion.
pub const DETECTION: &str = ".detection dd";
/// Print: the button that prints, once the path is on the plan.
pub const PRINT: &str = "#print-now:enabled";
/// Print: the choices of paper, A4 first.
pub const PAPERS: &str = "input[name=paper]";
/// Print: numbers on the plan.
pub const ON_PLAN: &str = "svg.plan g.marker";
/// Print: numbers in the lists under it.
pub const IN_LIST: &str = ".times li";
/// Replay: play, once it is open.
pub const PLAY: &str = "button.play:enabled";
/// Settings: a switch.
pub const SWITCH: &str = "label.switch";
/// Any page: it is said that driving works without network.
pub const WORKS_OFFLINE: &str = "#kept-here";
/// Any page but a drive and a replay: loads a newer version of the site.
pub const TAKE_NEWER: &str = "#take-newer";
/// Before there are pages: the way to a drive, in the likely language.
pub const DOOR: &str = "#door:not([hidden]) > div:not([hidden]) a[href='#/drive-now']";
/// Before there are pages: why there are none.
pub const TROUBLE: &str = "#trouble:not([hidden])";
/// Path: leads to the lesson.
pub const TO_LESSON: &str = "#to-lesson";
/// Lesson: leads to its first topic.
pub const LESSON_BEGIN: &str = "#lesson-begin";
/// Lesson: the list of topics.
pub const LESSON_TOPICS: &str = ".lesson-topics li";
/// Lesson: a topic.
pub const LESSON_TOPIC: &str = ".lesson-topic";
/// Lesson: what is shown of a topic, when it is there.
pub const LESSON_SHOWN: &str = ".lesson-show :is(.playing, .check-picture svg)";
/// Lesson: the tick of a topic.
pub const LESSON_COVERED: &str = "#covered";
