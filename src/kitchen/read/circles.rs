//! Circles in what needs what.

/// Every group of nodes that need each other in a circle, each as one circle that begins at its lowest node. `edges[n]` are the nodes that
/// `n` needs.
pub(super) fn circles(edges: &[Vec<usize>]) -> Vec<Vec<usize>> {
    let mut state = vec![State::New; edges.len()];
    let mut found = Vec::new();
    for start in 0..edges.len() {
        if state[start] == State::New {
            walk(start, edges, &mut state, &mut found);
        }
    }
    found
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum State {
    New,
    OnPath,
    Done,
}

/// Depth first with a path of its own, so that a long chain of recipes cannot exhaust the stack.
fn walk(start: usize, edges: &[Vec<usize>], state: &mut [State], found: &mut Vec<Vec<usize>>) {
    let mut path: Vec<(usize, usize)> = vec![(start, 0)];
    state[start] = State::OnPath;
    while let Some((node, next)) = path.last_mut() {
        let node = *node;
        let Some(&to) = edges[node].get(*next) else {
            state[node] = State::Done;
            path.pop();
            continue;
        };
        *next += 1;
        match state.get(to) {
            Some(State::New) => {
                state[to] = State::OnPath;
                path.push((to, 0));
            }
            Some(State::OnPath) => found.push(from_lowest(path.iter().map(|(node, _)| *node).skip_while(|node| *node != to).collect())),
            _ => {}
        }
    }
}

fn from_lowest(mut circle: Vec<usize>) -> Vec<usize> {
    let lowest = (0..circle.len()).min_by_key(|index| circle[*index]).unwrap_or(0);
    circle.rotate_left(lowest);
    circle
}

#[cfg(test)]
mod tests {
    use super::*;
    use pretty_assertions::assert_eq;

    #[test]
    fn a_circle_is_named_once_from_its_lowest_node() {
        assert_eq!(circles(&[vec![1], vec![2], vec![0]]), vec![vec![0, 1, 2]]);
        assert_eq!(circles(&[vec![0]]), vec![vec![0]]);
        assert_eq!(circles(&[vec![1, 2], vec![2], vec![]]), Vec::<Vec<usize>>::new());
    }
}
