//! The wide registers of newer processors, where there are such.

/// Runs `work` compiled for them: the same operations in the same order, so the result is the same to the last bit on
/// every machine. Only what is inlined into `work` gains.
#[inline(always)]
pub(super) fn wide<R>(work: impl FnOnce() -> R) -> R {
    struct Work<F>(F);
    impl<R, F: FnOnce() -> R> pulp::NullaryFnOnce for Work<F> {
        type Output = R;
        #[inline(always)]
        fn call(self) -> R {
            (self.0)()
        }
    }
    pulp::Arch::new().dispatch(Work(work))
}
