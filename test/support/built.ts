/** Before the browser tests: the built page is there and not older than its sources. */
import { ensureBuilt } from "../../src/cli/launch.mjs";

export default async (): Promise<void> => {
  // The one who started the tests may have built it already.
  if (process.env.TURNWISE_BUILT !== "1") await ensureBuilt();
};
