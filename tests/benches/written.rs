//! The invented sessions as JSON in plain numbers, each with the plan found for it and the seconds it took.

use std::path::Path;
use std::time::Instant;

use serde_json::{Value, json};
use spence::prep::{Effort, Impossible, Job, Link, LinkWhy, Machine, Problem, Worker, least_finish, schedule};

use crate::random::{afternoon, tangle};

/// One file a session: twenty afternoons of each size, twenty-five of the large ones, and forty tangles.
pub fn write_all(folder: &Path) {
    std::fs::create_dir_all(folder).expect("the folder can be made");
    for tasks in [10, 12, 20, 40, 50, 60, 80] {
        for seed in 0..if tasks < 50 { 20 } else { 25 } {
            write(folder, &format!("afternoon-{tasks:02}-{seed:02}"), &afternoon(seed, tasks));
        }
    }
    for seed in 0..40 {
        write(folder, &format!("tangle-{seed:02}"), &tangle(seed, 4 + seed as usize % 6, 9));
    }
}

fn write(folder: &Path, name: &str, problem: &Problem) {
    let began = Instant::now();
    let (finish, bound) = least_finish(problem, Effort::Normal);
    let to_proof = began.elapsed().as_secs_f64();
    let began = Instant::now();
    let plan = schedule(problem, Effort::Normal);
    let in_all = began.elapsed().as_secs_f64();
    let safety = |broken: &Impossible| if let Impossible::Safety { link, minutes } = broken { Some((*link, *minutes)) } else { None };
    let unsafe_by: Vec<(usize, i64)> = plan.impossible.iter().filter_map(safety).collect();
    // A job that starts too late after several others counts once, with the worst.
    let worst = |broken: &[(usize, i64)]| -> i64 {
        let of = |job: usize| broken.iter().filter(|(link, _)| problem.links[*link].after == job).map(|(_, minutes)| *minutes).max();
        (0..problem.jobs.len()).filter_map(of).sum()
    };
    let sum = |broken: &[(usize, i64)]| -> i64 { broken.iter().map(|(_, minutes)| *minutes).sum() };
    let broken = [worst(&unsafe_by), sum(&plan.stays), worst(&plan.overrun), worst(&plan.hurried), sum(&plan.unheld)];
    let found = json!({
        "finish": finish, "bound": bound, "seconds": to_proof, "plan_finish": plan.finish, "plan_seconds": in_all, "broken": broken,
        "none_keeps_all": plan.none_keeps_all, "starts": plan.placed.iter().map(|placed| placed.start).collect::<Vec<_>>(),
        "people": plan.placed.iter().map(|placed| placed.person).collect::<Vec<_>>(),
    });
    let mut told = told(problem);
    told["name"] = json!(name);
    told["found"] = found;
    std::fs::write(folder.join(format!("{name}.json")), format!("{told:#}")).expect("the file can be written");
}

fn told(problem: &Problem) -> Value {
    let worker = |worker: &Worker| json!({ "from": worker.from, "until": worker.until, "helper": worker.helper });
    let machine = |machine: &Machine| {
        let heat = machine.heat.as_ref().map(|heat| json!({ "near": heat.near, "warm_up": heat.warm_up }));
        json!({ "room": machine.room, "heat": heat, "watched": machine.watched })
    };
    let job = |job: &Job| {
        json!({
            "making": job.making, "hands": job.hands, "wait": job.wait, "out": job.out, "machines": job.machines,
            "temperature": job.temperature, "people": job.people, "uncounted": job.uncounted,
            "serve": job.serve.map(|serve| json!({ "at": serve.at, "hold": serve.hold })),
        })
    };
    let link = |link: &Link| {
        let safety = link.why == LinkWhy::Safety;
        json!({ "before": link.before, "after": link.after, "gap": link.gap, "within": link.within, "safety": safety })
    };
    json!({
        "people": problem.people.iter().map(worker).collect::<Vec<_>>(),
        "machines": problem.machines.iter().map(machine).collect::<Vec<_>>(),
        "jobs": problem.jobs.iter().map(job).collect::<Vec<_>>(),
        "links": problem.links.iter().map(link).collect::<Vec<_>>(),
    })
}
