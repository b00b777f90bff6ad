"""One measuring pass of a job: the fewest go/no-go gauges after which every mount point keeps its proven answer."""
