//! The browser's drive, driven again natively while it goes on: what the page does not tell (where
//! the truck is) is known exactly, since both compute the same bits.

use coneyard_core::acts::Input;
use coneyard_core::controls::Controls;
use coneyard_core::desk::Status;
use coneyard_core::finding::Finding;
use coneyard_core::moment::Moment;
use coneyard_core::run::{DriveSetup, Driven};
use coneyard_sim::Session;

use super::Yard;

/// Lets the test see what the page takes from the yard of what was driven, and hands all of it
/// on to the page. Everything here is a script in the page; the drive itself is not touched.
const LISTEN: &str = "
    const take = coneyard.take_driven;
    const none = () => ({ pairs: [], acts: [] });
    let forPage = none();
    let forTest = none();
    const drain = () => {
        const fresh = JSON.parse(take());
        for (const to of [forPage, forTest]) {
            to.pairs.push(...fresh.pairs);
            to.acts.push(...fresh.acts);
        }
    };
    coneyard.take_driven = () => {
        drain();
        const driven = JSON.stringify(forPage);
        forPage = none();
        return driven;
    };
    globalThis.coneyard_test = () => {
        const status = JSON.parse(coneyard.status());
        if (status.mode === 'drive') drain();
        const driven = forTest;
        forTest = none();
        return { status, driven };
    };";

/// The native twin of the drive that is open in the page.
pub struct Mirror {
    session: Session,
}

impl Mirror {
    /// Begins to listen. Call it in a fresh document, before the drive page is opened.
    pub async fn listen(yard: &Yard) {
        yard.script(LISTEN, Vec::new()).await.expect("the page has its yard calls");
    }

    /// A twin at the start of a drive.
    pub fn new(setup: &DriveSetup) -> Self {
        Self { session: Session::new(setup).expect("a shipped course can be driven") }
    }

    /// Brings the twin to where the page's drive is now; returns what the page says of it.
    pub async fn catch_up(&mut self, yard: &Yard) -> Status {
        self.catch_up_seeing(yard, |_| {}).await
    }

    /// The same, with every moment on the way shown to somebody.
    pub async fn catch_up_seeing(&mut self, yard: &Yard, mut see: impl FnMut(&Moment)) -> Status {
        let now = yard.script("return coneyard_test();", Vec::new()).await;
        let now = now.expect("the yard tells its status");
        let driven = serde_json::from_value(now["driven"].clone());
        let driven: Driven = driven.expect("what was driven, of the shared type");
        for [bits, ticks] in driven.pairs.as_chunks::<2>().0 {
            let controls = Controls::from_bits(*bits).expect("the page records valid controls");
            for _ in 0..*ticks {
                let tick = self.session.moment().tick + 1;
                let done = driven.acts.iter().filter(|done| done.tick == tick);
                let acts = done.map(|done| done.act.clone()).collect();
                self.session.step(Input { controls, acts });
                see(self.session.moment());
            }
        }
        serde_json::from_value(now["status"].clone()).expect("a status of the shared type")
    }

    /// What was found so far.
    pub fn findings(&self) -> &[Finding] {
        self.session.findings()
    }

    /// What is true now in the twin, and so in the page.
    pub fn moment(&self) -> &Moment {
        self.session.moment()
    }
}
