//! The judge: hands every Moment to the watchers and says what it comes to.

use std::collections::BTreeMap;

use crate::course::Course;
use crate::debrief::{Debrief, Ending};
use crate::finding::{Finding, Skill};
use crate::moment::Moment;
use crate::rules::SiteRules;
use crate::score::exposure::Exposure;
use crate::score::extent::Extent;
use crate::score::points;
use crate::time::Tick;
use crate::truck::spec::TruckSpec;
use crate::watch::{Report, Watcher, watched};

/// Judges one drive.
pub struct Judge {
    watchers: Vec<Box<dyn Watcher>>,
    exposure: Exposure,
    extent: Extent,
    report: Report,
    rules: SiteRules,
    weights: BTreeMap<Skill, f64>,
    ended: bool,
}

impl Judge {
    /// A judge for a drive on this course with this truck by these rules.
    pub fn new(course: &Course, rules: &SiteRules, truck: &TruckSpec) -> Self {
        let neutral = truck.travel.throttle_dead_band;
        let watchers = watched()
            .filter(|(d, _)| rules.rules[d.code].on && (course.traffic || !d.in_traffic))
            .map(|(d, made)| made(rules.yardstick(d, neutral)))
            .collect();
        let exposure = Exposure::new(rules, rules.common(neutral), course.traffic);
        Self {
            watchers,
            exposure,
            extent: Extent::new(course),
            report: Report::default(),
            rules: rules.clone(),
            weights: course.weights.clone(),
            ended: false,
        }
    }

    /// Looks at one tick. Ticks come in order, each once.
    pub fn see(&mut self, moment: &Moment) {
        for watcher in &mut self.watchers {
            watcher.see(moment, &mut self.report);
        }
        self.exposure.see(moment, &mut self.report);
        self.extent.see(moment);
    }

    /// Findings so far, closed or still going on, in order of their first tick.
    pub fn findings(&self) -> &[Finding] {
        self.report.findings()
    }

    /// The drive is over after so many ticks. A second call says the same.
    pub fn finish(&mut self, ending: Ending, ticks: Tick) -> Debrief {
        if !self.ended {
            self.ended = true;
            for watcher in &mut self.watchers {
                watcher.end(ticks, &mut self.report);
            }
            self.exposure.end(ticks, &mut self.report);
            self.report.name_causes(self.rules.cause_within());
        }
        let findings = self.report.findings().to_vec();
        let mut skills =
            points::by_skill(&findings, &self.report.chances, &self.rules, &self.weights);
        // Who lets the time run out has broken off as well.
        let gave_up = matches!(ending, Ending::Broken | Ending::TimeOut);
        if gave_up && self.exposure.driven() < self.rules.term("counts-from") {
            points::only_faults_count(&mut skills);
        }
        let did = self.extent.share(ending);
        Debrief {
            ending,
            ticks,
            total: points::total(&skills, did, findings.iter(), &self.rules),
            did: Some(did),
            practise: points::practise(&skills),
            skills,
            findings,
            changed_rules: self.rules.changed(),
        }
    }
}
