/** How a cost grows with the size of a drive, told so that other work on the machine doesn't matter. */
import type { Solved } from "../../../src/engine/solved";

/** Every list of a solved drive, so that each reading of an element is counted: loops over whole lists show, whatever the clock says. */
export function countReads(solved: Solved, run: (counted: Solved) => void): number {
  let reads = 0;
  const countingList = <T extends object>(list: T): T =>
    new Proxy(list, {
      get: (target, name) => {
        if (typeof name === "string" && /^\d/.test(name)) reads++;
        return Reflect.get(target, name);
      },
    });
  // Lists may be made when first asked for, so the holder is asked as itself.
  const counting = <T extends object>(holder: T): T => {
    const lists = new Map<object, object>();
    return new Proxy(holder, {
      get: (target, name) => {
        const value: unknown = Reflect.get(target, name, target);
        if (!Array.isArray(value)) return value;
        const list = lists.get(value) ?? countingList(value);
        lists.set(value, list);
        return list;
      },
    });
  };
  const { drive, index, placement, motion, load } = solved;
  run({
    ...solved,
    drive: counting(drive),
    index: counting(index),
    placement: counting(placement),
    motion: counting(motion),
    load: counting(load),
    findings: countingList(solved.findings),
  });
  return reads;
}

const time = (run: () => void): number => {
  const start = performance.now();
  let runs = 0;
  for (; performance.now() - start < 20; runs++) run();
  return (performance.now() - start) / runs;
};

/**
 * Time of the large over time of the small, each round measuring both: the least of the rounds, since a busy machine
 * would have to slow the same one of the two in every round. About the ratio of sizes where the cost is linear.
 */
export function growth(small: () => void, large: () => void): number {
  // Until both are compiled the small one costs too much, and hides what the large one does.
  for (let i = 0; i < 10; i++) {
    time(small);
    time(large);
  }
  return Math.min(...Array.from({ length: 5 }, () => [time(small), time(large)]).map(([a = 0, b = 0]) => b / a));
}
