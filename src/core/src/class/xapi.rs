//! Records as statements for record stores: IEEE 9274.1.1 (xAPI), written so that stores of version 1.0.3 take them too.
//!
//! One statement for each attempt, and one for each pre-test. Its id follows from the record's own id and from where the
//! class is at home, so that whoever exports twice hands out the same statements, and a store keeps each once.
//!
//! | what | verb |
//! | --- | --- |
//! | an attempt that was driven to its end | completed |
//! | another one | attempted |
//! | a pre-test | passed, failed, or attempted as long as nothing can be said |
//!
//! An attempt passes nobody: only a pre-test has `success`. Slowed practice has no score. Left out, and said, is
//! what is not what it says it is, and what has no time or one that is yet to come.

use std::collections::BTreeMap;

use serde::Serialize;
use time::OffsetDateTime;
use time::format_description::FormatItem;
use time::format_description::well_known::Rfc3339;
use time::macros::format_description;
use uuid::Uuid;

use super::attempt::Attempt;
use super::sitting::Taken;
use crate::debrief::Ending;
use crate::outside::{BadInput, Said, to_json};
use crate::pretest::{Joined, Outcome};
use crate::time::{DT, Tick};

/// Under which all ids here are made; drawn once at random.
const NAMESPACE: Uuid = Uuid::from_u128(0x6f2d_31c8_94b7_4e0a_a3d5_58c1_7be9_0f46);
const VERBS: &str = "http://adlnet.gov/expapi/verbs/";
const ACTIVITIES: &str = "http://adlnet.gov/expapi/activities/";
/// Milliseconds at least are asked for.
const FORM: &[FormatItem<'static>] =
    format_description!("[year]-[month]-[day]T[hour]:[minute]:[second].[subsecond digits:3]Z");

/// What the records do not tell themselves.
pub struct Home<'a> {
    /// Where the class is at home: an address that begins with http:// or https://. Names of people, exercises and
    /// extensions begin with it.
    pub address: &'a str,
    /// What time it is, RFC 3339.
    pub now: &'a str,
    /// What exercises are called, by course id.
    pub titles: &'a BTreeMap<String, Said>,
    /// The account of who drove, by the name in the records; the name itself where there is none.
    pub accounts: &'a BTreeMap<String, String>,
}

/// A pre-test and what it came to.
pub struct Judged<'a> {
    /// Its record.
    pub taken: &'a Taken,
    /// What it came to.
    pub joined: &'a Joined,
}

/// Why a record is left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum LeftOut {
    /// It was driven again and came out otherwise.
    NotWhatItSays,
    /// It does not say when it began.
    NoTime,
    /// It began after now: some clock is wrong.
    YetToCome,
    /// It does not say who drove.
    Nobody,
}

/// What goes out.
#[derive(Clone, Debug, PartialEq)]
pub struct Out {
    /// Statements as JSON values, in the order of the records.
    pub statements: Vec<serde_json::Value>,
    /// Ids of records that are left out, each with its reason.
    pub left_out: Vec<(String, LeftOut)>,
}

impl Out {
    /// As one JSON array.
    ///
    /// # Errors
    /// One sentence; values can always be written.
    pub fn to_text(&self) -> Result<String, String> {
        to_json(&self.statements).map_err(|e| format!("the statements cannot be written: {e}"))
    }
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Statement {
    id: String,
    actor: Actor,
    verb: Verb,
    object: Object,
    result: Outcomes,
    context: Context,
    timestamp: String,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Actor {
    object_type: &'static str,
    name: String,
    account: Account,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Account {
    home_page: String,
    name: String,
}

#[derive(Serialize)]
struct Verb {
    id: String,
    display: BTreeMap<&'static str, &'static str>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Object {
    object_type: &'static str,
    id: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    definition: Option<Definition>,
}

#[derive(Serialize)]
struct Definition {
    #[serde(rename = "type")]
    kind: String,
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    name: Said,
}

#[derive(Serialize)]
struct Outcomes {
    #[serde(skip_serializing_if = "Option::is_none")]
    score: Option<Score>,
    #[serde(skip_serializing_if = "Option::is_none")]
    success: Option<bool>,
    completion: bool,
    duration: String,
}

#[derive(Serialize)]
struct Score {
    scaled: f64,
    raw: f64,
    min: f64,
    max: f64,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Context {
    registration: String,
    platform: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    context_activities: Option<Parents>,
    extensions: BTreeMap<String, serde_json::Value>,
}

#[derive(Serialize)]
struct Parents {
    parent: Vec<Object>,
}

/// Statements of these records.
///
/// # Errors
/// One sentence when the address is none, or now is no time.
pub fn statements(
    attempts: &[Attempt],
    pretests: &[Judged<'_>],
    home: &Home<'_>,
) -> Result<Out, BadInput> {
    let maker = Maker::new(home)?;
    let mut out = Out { statements: Vec::new(), left_out: Vec::new() };
    let made = attempts.iter().map(|a| (&a.id, maker.of_attempt(a)));
    for (id, made) in made.chain(pretests.iter().map(|p| (&p.taken.id, maker.of_pretest(p)))) {
        let value = made.map(|s| serde_json::to_value(s).unwrap_or_default());
        match value {
            Ok(value) => out.statements.push(value),
            Err(why) => out.left_out.push((id.clone(), why)),
        }
    }
    Ok(out)
}

struct Maker<'a> {
    home: &'a Home<'a>,
    address: &'a str,
    now: OffsetDateTime,
}

impl<'a> Maker<'a> {
    fn new(home: &'a Home<'a>) -> Result<Self, BadInput> {
        let address = home.address.trim_end_matches('/');
        let rest = ["https://", "http://"].into_iter().find_map(|s| address.strip_prefix(s));
        let odd = |c: char| c.is_whitespace() || c.is_control() || "<>\"{}|\\^`".contains(c);
        if rest.is_none_or(|rest| rest.is_empty() || rest.starts_with('/') || rest.contains(odd)) {
            let reason = "the class's address begins with http:// or https:// and has no blanks";
            return Err(BadInput::new("statements", "address", reason));
        }
        let reason = "this is no time as in 2026-01-31T08:00:00.000Z";
        let now = OffsetDateTime::parse(home.now, &Rfc3339)
            .map_err(|_| BadInput::new("statements", "now", reason))?;
        Ok(Self { home, address, now })
    }

    fn id(&self, kind: &str, of: &str) -> String {
        Uuid::new_v5(&NAMESPACE, format!("{}\n{kind}\n{of}", self.address).as_bytes()).to_string()
    }

    fn timestamp(&self, started: &str) -> Result<String, LeftOut> {
        let at = OffsetDateTime::parse(started, &Rfc3339).map_err(|_| LeftOut::NoTime)?;
        if at > self.now {
            return Err(LeftOut::YetToCome);
        }
        at.to_offset(time::UtcOffset::UTC).format(FORM).map_err(|_| LeftOut::NoTime)
    }

    fn actor(&self, who: &str) -> Result<Actor, LeftOut> {
        let name = who.trim().to_owned();
        if name.is_empty() {
            return Err(LeftOut::Nobody);
        }
        let account = self.home.accounts.get(who).unwrap_or(&name).clone();
        let account = Account { home_page: self.address.to_owned(), name: account };
        Ok(Actor { object_type: "Agent", name, account })
    }

    fn object(&self, kind: &str, what: &str, name: Option<&Said>) -> Object {
        let plain = |c: char| if c.is_alphanumeric() || c == '-' { c } else { '-' };
        let what: String = what.chars().map(plain).collect();
        let name = name.cloned().unwrap_or_default();
        Object {
            object_type: "Activity",
            id: format!("{}/activities/{what}", self.address),
            definition: Some(Definition { kind: format!("{ACTIVITIES}{kind}"), name }),
        }
    }

    fn pretest(&self, truck: &str) -> Object {
        let names = [("en", "Pre-test"), ("es", "Prueba previa")];
        let name = names.map(|(l, n)| (l.to_owned(), n.to_owned())).into();
        self.object("assessment", &format!("pretest-{truck}"), Some(&name))
    }

    fn extension(&self, name: &str) -> String {
        format!("{}/extensions/{name}", self.address)
    }

    fn of_attempt(&self, a: &Attempt) -> Result<Statement, LeftOut> {
        if !a.verdict.reproduces {
            return Err(LeftOut::NotWhatItSays);
        }
        let debrief = &a.verdict.debrief;
        let completion = debrief.ending == Ending::Done;
        let parent = a.place.as_ref().map(|_| Parents { parent: vec![self.pretest(&a.truck)] });
        let registration = match &a.place {
            Some(place) => self.id("pretest", &place.sitting),
            None => self.id("attempt", &a.id),
        };
        let mut extensions = BTreeMap::from([
            (self.extension("truck"), a.truck.as_str().into()),
            (self.extension("pace"), a.pace.into()),
        ]);
        if let Some(simulation) = a.simulation {
            extensions.insert(self.extension("simulation"), simulation.into());
        }
        Ok(Statement {
            id: self.id("statement of attempt", &a.id),
            actor: self.actor(&a.who)?,
            verb: verb(if completion { "completed" } else { "attempted" }),
            object: self.object("simulation", &a.course, self.home.titles.get(&a.course)),
            result: Outcomes {
                score: a.total().filter(|_| !a.is_slowed()).map(score),
                success: None,
                completion,
                duration: duration(debrief.ticks),
            },
            context: Context {
                registration,
                platform: "Coneyard",
                context_activities: parent,
                extensions,
            },
            timestamp: self.timestamp(&a.started)?,
        })
    }

    fn of_pretest(&self, of: &Judged<'_>) -> Result<Statement, LeftOut> {
        let (taken, joined) = (of.taken, of.joined);
        let success = match joined.result {
            Outcome::Passed => Some(true),
            Outcome::NotPassed => Some(false),
            Outcome::Incomplete => None,
        };
        let said = match success {
            Some(true) => "passed",
            Some(false) => "failed",
            None => "attempted",
        };
        Ok(Statement {
            id: self
                .id(&format!("statement of pretest: {said}, {} parts", joined.driven), &taken.id),
            actor: self.actor(&taken.who)?,
            verb: verb(said),
            object: self.pretest(&taken.truck),
            result: Outcomes {
                score: joined.total.filter(|_| success.is_some()).map(score),
                success,
                completion: success.is_some(),
                duration: duration(joined.ticks),
            },
            context: Context {
                registration: self.id("pretest", &taken.id),
                platform: "Coneyard",
                context_activities: None,
                extensions: BTreeMap::from([(
                    self.extension("truck"),
                    taken.truck.as_str().into(),
                )]),
            },
            timestamp: self.timestamp(&taken.started)?,
        })
    }
}

fn verb(name: &'static str) -> Verb {
    let spanish = match name {
        "completed" => "completó",
        "attempted" => "intentó",
        "passed" => "aprobó",
        _ => "no aprobó",
    };
    Verb { id: format!("{VERBS}{name}"), display: BTreeMap::from([("en", name), ("es", spanish)]) }
}

/// Points of a hundred.
fn score(points: f64) -> Score {
    let raw = points.clamp(0.0, 100.0);
    Score { scaled: raw / 100.0, raw, min: 0.0, max: 100.0 }
}

/// ISO 8601, to a hundredth of a second.
fn duration(ticks: Tick) -> String {
    format!("PT{:.2}S", f64::from(ticks) * DT)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::class::contract;
    use crate::class::drive::Place;
    use serde_json::{Value, json};

    const NOW: &str = "2026-02-01T00:00:00Z";

    fn titles() -> BTreeMap<String, Said> {
        let said = [("en", "Gentle starts"), ("es", "Arranques suaves")];
        let said = said.map(|(l, t)| (l.to_owned(), t.to_owned())).into();
        BTreeMap::from([("straight".to_owned(), said)])
    }

    fn out(attempts: &[Attempt], address: &str, now: &str) -> Result<Out, BadInput> {
        let (titles, accounts) =
            (titles(), BTreeMap::from([("Alder".to_owned(), "p-7".to_owned())]));
        statements(attempts, &[], &Home { address, now, titles: &titles, accounts: &accounts })
    }

    fn one(attempt: Attempt) -> Value {
        let mut out = out(&[attempt], "https://yard.example/", NOW).unwrap();
        assert_eq!(out.left_out, []);
        out.statements.remove(0)
    }

    #[test]
    fn an_attempt_says_who_did_what_when_and_how_well() {
        let mut attempt = contract::attempt("run-1");
        attempt.started = "2026-01-05T09:00:00.5+01:00".to_owned();
        attempt.verdict.debrief.total = Some(87.5);
        attempt.verdict.debrief.ticks = 864;
        let is = one(attempt);
        assert_eq!(
            is["actor"]["account"],
            json!({"homePage": "https://yard.example", "name": "p-7"})
        );
        assert_eq!(is["verb"]["id"], "http://adlnet.gov/expapi/verbs/completed");
        assert_eq!(is["object"]["id"], "https://yard.example/activities/straight");
        assert_eq!(is["object"]["definition"]["name"]["es"], "Arranques suaves");
        assert_eq!(
            is["result"]["score"],
            json!({"scaled": 0.875, "raw": 87.5, "min": 0.0, "max": 100.0})
        );
        assert_eq!(
            (&is["result"]["completion"], &is["result"]["success"]),
            (&json!(true), &Value::Null)
        );
        assert_eq!(is["result"]["duration"], "PT13.50S");
        assert_eq!(is["timestamp"], "2026-01-05T08:00:00.500Z");
        let no_nulls = !is.to_string().contains("null");
        assert!(no_nulls, "{is}");
    }

    #[test]
    fn who_exports_twice_hands_out_the_same() {
        let all = [contract::attempt("a"), contract::attempt("b")];
        let (first, later) = (
            out(&all, "https://yard.example", NOW).unwrap(),
            out(&all, "https://yard.example/", "2026-03-01T00:00:00Z").unwrap(),
        );
        assert_eq!(first, later);
        let id = |out: &Out, i: usize| out.statements[i]["id"].as_str().unwrap().to_owned();
        assert_ne!(id(&first, 0), id(&first, 1));
        let elsewhere = out(&all, "https://other.example", NOW).unwrap();
        assert_ne!(id(&first, 0), id(&elsewhere, 0), "another home has other people in it");
        let read = Uuid::parse_str(&id(&first, 0)).unwrap();
        assert_eq!(read.get_version_num(), 5);
        // Python 3.11: uuid.uuid5(namespace, "https://yard.example\nstatement of attempt\na").
        assert_eq!(id(&first, 0), "b695ad28-8f2a-534e-b496-0866e12c5c0f");
    }

    #[test]
    fn parts_share_the_registration_of_their_pre_test() {
        let part = |id: &str, sitting: &str, part| Attempt {
            place: Some(Place { sitting: sitting.to_owned(), part }),
            ..contract::attempt(id)
        };
        let registration = |a: Attempt| one(a)["context"]["registration"].clone();
        assert_eq!(registration(part("a", "s", 0)), registration(part("b", "s", 1)));
        assert_ne!(registration(part("a", "s", 0)), registration(part("a", "t", 0)));
        assert_ne!(registration(contract::attempt("a")), registration(contract::attempt("b")));
        let is = one(part("a", "s", 0));
        let parent = &is["context"]["contextActivities"]["parent"][0];
        assert_eq!(parent["id"], "https://yard.example/activities/pretest-single");
    }

    #[test]
    fn what_says_nothing_of_skill_has_no_score() {
        let slowed = one(Attempt { pace: 0.5, ..contract::attempt("a") });
        assert_eq!(slowed["result"]["score"], Value::Null);
        let mut broken = contract::attempt("b");
        broken.verdict.debrief.ending = Ending::Broken;
        let broken = one(broken);
        assert_eq!(broken["verb"]["id"], "http://adlnet.gov/expapi/verbs/attempted");
        assert_eq!(broken["result"]["completion"], false);
    }

    #[test]
    fn what_cannot_go_out_is_said() {
        let mut not = contract::attempt("not");
        not.verdict.reproduces = false;
        let at = |id: &str, started: &str| Attempt {
            started: started.to_owned(),
            ..contract::attempt(id)
        };
        let all = [
            not,
            at("when", "yesterday"),
            at("later", "2026-02-01T00:00:00.001Z"),
            at("now", NOW),
            Attempt { who: " ".to_owned(), ..contract::attempt("who") },
        ];
        let is = out(&all, "http://localhost:8137", NOW).unwrap();
        let left: Vec<(&str, LeftOut)> =
            is.left_out.iter().map(|(i, w)| (i.as_str(), *w)).collect();
        let should = [
            ("not", LeftOut::NotWhatItSays),
            ("when", LeftOut::NoTime),
            ("later", LeftOut::YetToCome),
            ("who", LeftOut::Nobody),
        ];
        assert_eq!((left, is.statements.len()), (should.to_vec(), 1));
        // An offset of minus nought is written as Z.
        let zero = one(at("zero", "2026-01-05T08:00:00-00:00"));
        assert_eq!(zero["timestamp"], "2026-01-05T08:00:00.000Z");
        for address in
            ["", "yard.example", "https://", "https:///a", "https://a b", "ftp://a", "https://a<b"]
        {
            assert!(out(&all, address, NOW).is_err(), "{address}");
        }
        assert!(out(&all, "https://a", "now").is_err());
    }

    #[test]
    fn a_pre_test_is_passed_failed_or_open() {
        let taken = contract::taken("s");
        let said = |outcome| {
            let joined = Joined {
                result: outcome,
                reasons: vec![],
                total: Some(91.0),
                skills: vec![],
                driven: 11,
                parts: 11,
                ticks: 6400,
                practise: None,
            };
            let (titles, accounts) = (titles(), BTreeMap::new());
            let home =
                Home { address: "https://a", now: NOW, titles: &titles, accounts: &accounts };
            let judged = [Judged { taken: &taken, joined: &joined }];
            let is = statements(&[], &judged, &home).unwrap().statements.remove(0);
            let verb = is["verb"]["id"].as_str().unwrap().rsplit('/').next().unwrap().to_owned();
            (
                verb,
                is["result"]["success"].clone(),
                is["result"]["score"]["raw"].clone(),
                is["id"].clone(),
            )
        };
        let (passed, open) = (said(Outcome::Passed), said(Outcome::Incomplete));
        assert_eq!(
            (passed.0.as_str(), &passed.1, &passed.2),
            ("passed", &json!(true), &json!(91.0))
        );
        let failed = said(Outcome::NotPassed);
        assert_eq!((failed.0.as_str(), failed.1), ("failed", json!(false)));
        assert_eq!((open.0.as_str(), open.1, open.2), ("attempted", Value::Null, Value::Null));
        assert_ne!(passed.3, open.3, "what was said while it was open is another statement");
    }
}
