// The public surface: what a harness description may import.
export {}
