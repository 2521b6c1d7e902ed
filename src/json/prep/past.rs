//! Sessions that are no longer open: what is taken as done as it was printed, what is done as it was booked. The order of the steps, and for
//! whom a box is, the book does not know: they stay as they were printed.

use super::super::shape::minute;
use super::{Boxed, Fetch, Session, Writer};
use crate::kitchen::Kitchen;
use crate::plan::State;
use crate::prep::{Put, Taken, Turnover};
use crate::reckon::PastSession;

/// Sessions that are done or taken as done, and those of the week's last print, which knows them best.
#[derive(Clone, Copy)]
pub struct Past<'p> {
    pub sessions: &'p [PastSession],
    pub printed: &'p [Session],
    /// Is what is done told as it was booked? A later print keeps what was printed.
    pub as_booked: bool,
}

impl Session {
    /// With what was made, taken and boxed as it was booked; what is as it was printed stays word for word, and so do the tasks.
    fn told_as_booked(self, booked: &Turnover, kitchen: &Kitchen) -> Session {
        let (foods, recipes) = (&kitchen.foods, &kitchen.recipes[..]);
        let Ok(printed) = self.turnover(foods, recipes) else { return self };
        let writer = Writer { names: kitchen.names(), units: kitchen.print.units };
        let mut session = self;
        if printed.batches != booked.batches {
            session.batches = booked.batches.iter().map(|one| writer.batch(one)).collect();
        }
        if printed.fetch != booked.fetch {
            let told: Vec<Fetch> = session.fetched.drain(..).chain(session.fetch.drain(..)).collect();
            let as_told = |taken: &Taken| told.iter().find(|told| told.taken(foods, recipes).as_ref() == Some(taken)).cloned();
            let (as_printed, otherwise): (Vec<Taken>, Vec<Taken>) =
                booked.fetch.iter().cloned().partition(|taken| as_told(taken).is_some());
            session.fetch = as_printed.iter().filter_map(as_told).chain(writer.taken(&otherwise)).collect();
        }
        if printed.boxes != booked.boxes {
            let as_told = |told: &[Boxed], put: &Put| told.iter().find(|told| told.put(foods, recipes).as_ref() == Some(put)).cloned();
            let apart = std::mem::take(&mut session.set_aside);
            let told: Vec<Boxed> = session.boxed.drain(..).chain(session.boxes.drain(..)).collect();
            session.set_aside = booked.boxes.iter().filter_map(|put| as_told(&apart, put)).collect();
            let others = booked.boxes.iter().filter(|put| as_told(&apart, put).is_none());
            session.boxes = others.map(|put| as_told(&told, put).unwrap_or_else(|| writer.put(put))).collect();
        }
        session
    }
}

impl Past<'_> {
    /// Word for word as it was printed, but for what was booked otherwise; else what it took and gave, without its tasks.
    pub(super) fn session(self, past: &PastSession, kitchen: &Kitchen) -> Session {
        let start = minute(past.start);
        let state = Some(past.state.words().to_owned());
        let printed = self.printed.iter().find(|session| session.start == start);
        if let Some(printed) = printed {
            let shown = Session { state, ..printed.clone() };
            let booked = past.turnover.as_ref().filter(|_| self.as_booked && past.state == State::Done);
            return booked.map_or(shown.clone(), |booked| shown.told_as_booked(booked, kitchen));
        }
        let writer = Writer { names: kitchen.names(), units: kitchen.print.units };
        let turnover = past.turnover.as_ref();
        let batches = turnover.map(|turnover| turnover.batches.iter().map(|one| writer.batch(one)).collect());
        let fetch = turnover.map(|turnover| writer.taken(&turnover.fetch));
        let boxes = turnover.map(|turnover| turnover.boxes.iter().map(|one| writer.put(one)).collect());
        Session {
            slower: Vec::new(),
            from: None,
            done: Vec::new(),
            fetched: Vec::new(),
            boxed: Vec::new(),
            finish: start.clone(),
            start,
            state,
            minutes: 0,
            bound_minutes: 0,
            proven: false,
            batches: batches.unwrap_or_default(),
            tasks: Vec::new(),
            fetch: fetch.unwrap_or_default(),
            cuts: Vec::new(),
            boxes: boxes.unwrap_or_default(),
            set_aside: Vec::new(),
            cautions: Vec::new(),
            advice: Vec::new(),
        }
    }
}
