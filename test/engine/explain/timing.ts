/** How a cost grows, in processor time of this process, which other work on the machine hardly changes. */

/** Least processor time of one run, ms: short runs are repeated, since the clock of the processor is coarse. */
function cost(run: () => void): number {
  let least = Number.POSITIVE_INFINITY;
  for (let round = 0; round < 3; round++) {
    const start = process.cpuUsage();
    let runs = 0;
    let spent = 0;
    while (spent < 30) {
      run();
      runs++;
      const { user, system } = process.cpuUsage(start);
      spent = (user + system) / 1000;
    }
    least = Math.min(least, spent / runs);
  }
  return least;
}

/** Cost of the large over cost of the small: about the ratio of their sizes where the cost is linear, its square where it isn't. */
export function growth(small: () => void, large: () => void): number {
  // Both once, so that neither pays for what is compiled or kept on first use.
  small();
  large();
  return cost(large) / cost(small);
}
