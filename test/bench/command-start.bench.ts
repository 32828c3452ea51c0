/** `npm run -s solve` on a small drive, start to end, held against an npm script that does nothing. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { ROOT } from "../../src/cli/launch.mjs";
import { writeDrive } from "../../src/engine/drive/write";
import { randomTree } from "../support/random-drives";
import { measureBoth, report } from "./measure";

const folder = mkdtempSync(join(tmpdir(), "turnwise-command-"));
try {
  const file = join(folder, "small.drive.json");
  writeFileSync(file, writeDrive(randomTree(5, 6, 4)));
  writeFileSync(
    join(folder, "package.json"),
    JSON.stringify({ name: "empty", version: "1.0.0", scripts: { empty: "" } }),
  );
  const npm = (cwd: string, args: readonly string[]): string => {
    const { status, stdout, stderr } = spawnSync("npm", ["run", "-s", ...args], { cwd, encoding: "utf8" });
    if (status !== 0) throw new Error(`npm run ${args.join(" ")} ended with ${status}: ${stderr}`);
    return stdout;
  };
  const compared = measureBoth(
    () => npm(ROOT, ["solve", "--", file]),
    () => npm(folder, ["empty"]),
    (solved) => {
      if ((JSON.parse(solved) as { status: string }).status !== "determined") throw new Error("Not solved.");
    },
    { rounds: 11, warmUp: 2 },
  );
  report({
    name: "solve a small drive from the command line, over an empty npm script",
    value: compared.first,
    unit: "ms",
    against: compared.second,
    ratio: compared.ratio,
    target: "<= 2",
  });
} finally {
  rmSync(folder, { recursive: true, force: true });
}
