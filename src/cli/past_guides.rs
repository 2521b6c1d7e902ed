//! The guides of sessions that are no longer open, for `print --all`: what is past is as it was printed, so the page that lies among the
//! sheets is kept, byte for byte. Where none was printed and the session is taken as done, it is as planned.

use std::io::Read;
use std::path::{Path, PathBuf};

use jiff::civil::DateTime;

use super::outcome::{Failure, remark};
use super::setting::Setting;
use crate::kitchen::Names;
use crate::plan::State;
use crate::prep::{Effort, PrepPlan};
use crate::sheets::{Settings, Sheet, guide_stem, person_guide, prep_guide};
use crate::store::open_ordinary;
use crate::words::day_clock;
use crate::{PastSession, Reckoning};

/// Pages as they were printed, by the names of their files, and those that are set anew, as planned.
#[derive(Default)]
pub struct PastGuides {
    pub printed: Vec<(PathBuf, Vec<u8>)>,
    pub planned: Vec<Sheet>,
}

/// How the pages that are set anew are to be.
pub struct How<'a> {
    pub names: Names<'a>,
    pub settings: Settings,
    pub effort: Effort,
    pub person: Option<&'a str>,
}

/// The guides of all sessions that are done or taken as done, from the sheets in `folder`, else from the kitchen's own.
///
/// # Errors
/// A page that is there and cannot be read.
pub fn past_guides(setting: &Setting, reckoned: &Reckoning, folder: &Path, how: &How) -> Result<PastGuides, Failure> {
    let mut guides = PastGuides::default();
    let mut planned = None;
    for session in reckoned.past_sessions() {
        let name = PathBuf::from(format!("{}.pdf", guide_stem(session.start, how.person)));
        if let Some(page) = printed_page(&[folder, &setting.folder.join("sheets")], &name)? {
            if session.is_otherwise {
                remark(&otherwise(session));
            }
            guides.printed.push((name, page));
            continue;
        }
        let plan = planned.get_or_insert_with(|| reckoned.prep_as_planned(how.effort));
        let sheet = plan.as_ref().filter(|_| session.state == State::TakenAsDone).map(|plan| as_planned(plan, session.start, how));
        match sheet {
            Some(sheet) => guides.planned.extend(sheet),
            None => remark(&not_there(session)),
        }
    }
    Ok(guides)
}

fn printed_page(folders: &[&Path], name: &Path) -> Result<Option<Vec<u8>>, Failure> {
    for folder in folders {
        let path = folder.join(name);
        let mut page = Vec::new();
        match open_ordinary(&path).and_then(|mut file| file.read_to_end(&mut page)) {
            Ok(_) => return Ok(Some(page)),
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => {}
            Err(error) => return Err(Failure::reading(&path, &error)),
        }
    }
    Ok(None)
}

/// `None` where the one person it is for has nothing to do in it.
fn as_planned(plan: &PrepPlan, start: DateTime, how: &How) -> Option<Sheet> {
    let (index, session) = plan.sessions.iter().enumerate().find(|(_, session)| session.start == start)?;
    let before = plan.before_session(index);
    let week = format!("{}, {}", plan.week, State::TakenAsDone.words());
    match how.person {
        None => Some(prep_guide(&week, session, &before, how.names, how.settings)),
        Some(person) => person_guide(&week, session, &before, how.names, how.settings, person),
    }
}

fn otherwise(session: &PastSession) -> String {
    format!(
        "the session of {} was booked otherwise than its guide says, which is kept as it was printed: spence prep --all says what was made.",
        day_clock(session.start)
    )
}

fn not_there(session: &PastSession) -> String {
    format!(
        "the session of {} is {}, and no guide of it was printed here: spence prep --all says what it made.",
        day_clock(session.start),
        session.state.words()
    )
}
