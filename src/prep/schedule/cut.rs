//! The smallest cut of a small network, by augmenting paths (Ford and Fulkerson 1956, the shortest path first: Edmonds and Karp 1972).
//!
//! Its memory is kept from one network to the next: thousands of them are cut in a second.

const NONE: usize = usize::MAX;

/// A network of numbered nodes; every edge stands beside the way back.
#[derive(Debug, Default)]
pub(super) struct Net {
    /// By node: the edge drawn last from it.
    last: Vec<usize>,
    edges: Vec<Edge>,
    /// By node: the edge by which it was reached from the source; the source's is its own.
    by: Vec<usize>,
    row: Vec<usize>,
}

#[derive(Debug, Clone, Copy)]
struct Edge {
    to: usize,
    left: i64,
    /// The edge drawn before this one from the same node.
    before: usize,
    name: usize,
}

/// The name of an edge that is not asked for again.
pub(super) const UNNAMED: usize = NONE;

impl Net {
    pub fn clear(&mut self, nodes: usize) {
        self.last.clear();
        self.last.resize(nodes, NONE);
        self.edges.clear();
    }

    pub fn edge(&mut self, from: usize, to: usize, most: i64, name: usize) {
        for (from, to, left) in [(from, to, most), (to, from, 0)] {
            self.edges.push(Edge { to, left, before: self.last[from], name });
            self.last[from] = self.edges.len() - 1;
        }
    }

    /// Sends as much from source to sink as the edges carry, and returns how much that is.
    pub fn fill(&mut self, source: usize, sink: usize) -> i64 {
        let mut sent = 0;
        while self.reach(source, sink) {
            let (mut most, mut node) = (i64::MAX, sink);
            while node != source {
                most = most.min(self.edges[self.by[node]].left);
                node = self.edges[self.by[node] ^ 1].to;
            }
            node = sink;
            while node != source {
                let edge = self.by[node];
                self.edges[edge].left -= most;
                self.edges[edge ^ 1].left += most;
                node = self.edges[edge ^ 1].to;
            }
            sent += most;
        }
        sent
    }

    /// Whether more can be sent to the sink.
    fn reach(&mut self, source: usize, sink: usize) -> bool {
        self.by.clear();
        self.by.resize(self.last.len(), NONE);
        self.by[source] = NONE - 1;
        self.row.clear();
        self.row.push(source);
        let mut place = 0;
        while place < self.row.len() {
            let mut edge = self.last[self.row[place]];
            place += 1;
            while edge != NONE {
                let Edge { to, left, before, .. } = self.edges[edge];
                if left > 0 && self.by[to] == NONE {
                    self.by[to] = edge;
                    if to == sink {
                        return true;
                    }
                    self.row.push(to);
                }
                edge = before;
            }
        }
        false
    }

    /// Whether the node lies on the source's side of the cut, once it is filled.
    pub fn inside(&self, node: usize) -> bool {
        self.by[node] != NONE
    }

    /// The names of the edges that carry anything.
    pub fn carrying(&self) -> impl Iterator<Item = usize> {
        self.edges.chunks_exact(2).filter(|pair| pair[0].name != UNNAMED && pair[1].left > 0).map(|pair| pair[0].name)
    }
}
