//! A stream whose reader may go away.

use std::io::{self, Write};

/// Passes everything on until the reader has gone away, as `| head` does; from then on what is written is dropped. That
/// nobody reads on changes neither the work nor how it came out.
pub struct Patient<W> {
    stream: W,
    gone: bool,
}

impl<W: Write> Patient<W> {
    pub fn new(stream: W) -> Self {
        Self { stream, gone: false }
    }

    /// What came of a write, or `usual` once nobody reads.
    fn outcome<T>(&mut self, usual: T, write: impl FnOnce(&mut W) -> io::Result<T>) -> io::Result<T> {
        if self.gone {
            return Ok(usual);
        }
        match write(&mut self.stream) {
            Err(error) if error.kind() == io::ErrorKind::BrokenPipe => {
                self.gone = true;
                Ok(usual)
            }
            outcome => outcome,
        }
    }
}

impl<W: Write> Write for Patient<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.outcome(bytes.len(), |stream| stream.write(bytes))
    }

    fn flush(&mut self) -> io::Result<()> {
        self.outcome((), Write::flush)
    }
}
