//! A folder in memory that stops, or fails once, at a step that the test names, and forgets what was not synced.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::io;

use super::files::{Files, Locked};

pub(super) type Names = BTreeMap<String, Vec<u8>>;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Fault {
    Never,
    /// At that step, counted from 1, and at every later one: the program is gone.
    StopAt(usize),
    /// At that step alone: the disk is full.
    FailAt(usize),
}

#[derive(Debug)]
pub(super) struct Memory {
    /// With whether the content is on the disk.
    now: RefCell<BTreeMap<String, (Vec<u8>, bool)>>,
    /// What a power cut leaves.
    durable: RefCell<Names>,
    steps: Cell<usize>,
    fault: Fault,
}

impl Memory {
    pub fn new(files: &Names, fault: Fault) -> Memory {
        let now = files.iter().map(|(name, bytes)| (name.clone(), (bytes.clone(), true))).collect();
        Memory { now: RefCell::new(now), durable: RefCell::new(files.clone()), steps: Cell::new(0), fault }
    }

    /// All that was done, as after a kill.
    pub fn after_kill(&self) -> Names {
        self.now.borrow().iter().map(|(name, (bytes, _))| (name.clone(), bytes.clone())).collect()
    }

    /// Only what was synced, as after a power cut.
    pub fn after_power_cut(&self) -> Names {
        self.durable.borrow().clone()
    }

    pub fn steps(&self) -> usize {
        self.steps.get()
    }

    /// Is this step to be done?
    fn step(&self) -> io::Result<()> {
        self.steps.set(self.steps.get() + 1);
        match self.fault {
            Fault::StopAt(step) if self.steps.get() >= step => Err(io::Error::other("stopped")),
            Fault::FailAt(step) if self.steps.get() == step => Err(io::Error::from(io::ErrorKind::StorageFull)),
            _ => Ok(()),
        }
    }

    fn gone() -> io::Error {
        io::Error::from(io::ErrorKind::NotFound)
    }
}

impl Files for Memory {
    fn read(&self, name: &str) -> io::Result<Option<Vec<u8>>> {
        Ok(self.now.borrow().get(name).map(|(bytes, _)| bytes.clone()))
    }

    fn write(&self, name: &str, bytes: &[u8]) -> io::Result<()> {
        let done = self.step();
        let stopped_before = matches!(self.fault, Fault::StopAt(step) if self.steps.get() > step);
        if !stopped_before {
            let written = if done.is_ok() { bytes } else { &bytes[..bytes.len() / 2] };
            self.now.borrow_mut().insert(name.to_owned(), (written.to_vec(), false));
        }
        done
    }

    fn write_behind(&self, name: &str, old: &str, keep: u64, more: &[u8]) -> io::Result<()> {
        let kept = self.read(old)?.unwrap_or_default();
        let kept = kept.get(..keep as usize).ok_or_else(Memory::gone)?;
        self.write(name, &[kept, more].concat())
    }

    fn sync(&self, name: &str) -> io::Result<()> {
        self.step()?;
        self.now.borrow_mut().get_mut(name).ok_or_else(Memory::gone)?.1 = true;
        Ok(())
    }

    fn rename(&self, from: &str, to: &str) -> io::Result<()> {
        self.step()?;
        let mut now = self.now.borrow_mut();
        let file = now.remove(from).ok_or_else(Memory::gone)?;
        now.insert(to.to_owned(), file);
        Ok(())
    }

    fn remove(&self, name: &str) -> io::Result<()> {
        self.step()?;
        self.now.borrow_mut().remove(name).map(drop).ok_or_else(Memory::gone)
    }

    fn sync_folder(&self) -> io::Result<()> {
        self.step()?;
        let kept = |(bytes, synced): &(Vec<u8>, bool)| if *synced { bytes.clone() } else { Vec::new() };
        *self.durable.borrow_mut() = self.now.borrow().iter().map(|(name, file)| (name.clone(), kept(file))).collect();
        Ok(())
    }

    fn lock(&self, _name: &str) -> io::Result<Locked> {
        Ok(Box::new(()))
    }
}
