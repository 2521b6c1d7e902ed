//! Links that close a circle: steps that wait for one another can never start.

use super::super::Problem;

/// The links to leave out so that none waits for itself: of each circle the last one in the problem's order.
pub(super) fn closing(problem: &Problem) -> Vec<usize> {
    let mut closing = Vec::new();
    let mut ahead: Vec<Vec<usize>> = vec![Vec::new(); problem.jobs.len()];
    if is_acyclic(problem) {
        return closing;
    }
    for (index, link) in problem.links.iter().enumerate() {
        if reaches(&ahead, link.after, link.before) {
            closing.push(index);
        } else {
            ahead[link.before].push(link.after);
        }
    }
    closing
}

fn is_acyclic(problem: &Problem) -> bool {
    let mut waiting = vec![0; problem.jobs.len()];
    problem.links.iter().for_each(|link| waiting[link.after] += 1);
    let mut free: Vec<usize> = (0..waiting.len()).filter(|&job| waiting[job] == 0).collect();
    let mut ahead: Vec<Vec<usize>> = vec![Vec::new(); waiting.len()];
    problem.links.iter().for_each(|link| ahead[link.before].push(link.after));
    let mut done = 0;
    while let Some(job) = free.pop() {
        done += 1;
        for &next in &ahead[job] {
            waiting[next] -= 1;
            if waiting[next] == 0 {
                free.push(next);
            }
        }
    }
    done == waiting.len()
}

fn reaches(ahead: &[Vec<usize>], from: usize, to: usize) -> bool {
    let mut seen = vec![false; ahead.len()];
    let mut open = vec![from];
    while let Some(job) = open.pop() {
        if job == to {
            return true;
        }
        if !std::mem::replace(&mut seen[job], true) {
            open.extend(&ahead[job]);
        }
    }
    false
}
