//! What a cached answer rests on, told byte by byte to whoever makes a digest of it.

/// Takes the bytes that a digest is made of. A hasher wrapped in one line implements it.
pub trait Feed {
    /// Takes the next bytes.
    fn feed(&mut self, bytes: &[u8]);
}

impl Feed for Vec<u8> {
    fn feed(&mut self, bytes: &[u8]) {
        self.extend_from_slice(bytes);
    }
}

/// Feeds values with a name and a length before each, so that no two different lists of values give the same bytes.
pub struct Named<'a>(pub &'a mut dyn Feed);

impl Named<'_> {
    /// A run of bytes.
    pub fn bytes(&mut self, name: &str, value: &[u8]) {
        self.0.feed(&(name.len() as u64).to_le_bytes());
        self.0.feed(name.as_bytes());
        self.0.feed(&(value.len() as u64).to_le_bytes());
        self.0.feed(value);
    }

    /// A number, by its bits.
    pub fn number(&mut self, name: &str, value: f64) {
        self.bytes(name, &value.to_bits().to_le_bytes());
    }

    /// A whole number.
    pub fn count(&mut self, name: &str, value: u64) {
        self.bytes(name, &value.to_le_bytes());
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn neighbouring_values_do_not_run_together() {
        let fed = |pairs: &[(&str, &[u8])]| {
            let mut out = Vec::new();
            pairs.iter().for_each(|(n, v)| Named(&mut out).bytes(n, v));
            out
        };
        assert_ne!(fed(&[("a", b"bc")]), fed(&[("ab", b"c")]));
        assert_ne!(fed(&[("a", b"b"), ("c", b"")]), fed(&[("a", b""), ("c", b"b")]));
    }
}
