//! Reading quantities as people write them at the bench.
