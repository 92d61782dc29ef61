//! The wide registers of newer processors, where there are such.

/// Runs `work` compiled for them: the same operations in the same order, so the result is the same to the last bit on
/// every machine. Only what is inlined into `work` gains.
#[inline(always)]
pub(super) fn wide<R>(work: impl FnOnce() -> R) -> R {
    pulp::Arch::new().dispatch(work)
}
