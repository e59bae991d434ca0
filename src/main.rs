//! The `placewright` program: arguments and streams in, an exit status out.

fn main() {}
