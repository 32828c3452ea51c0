/** What every component test starts with: matchers for the page, and a page that is empty again after each test. */
import "@testing-library/jest-dom/vitest";
import { cleanup, configure } from "@testing-library/react";
import { afterEach } from "vitest";
import { workshop } from "../../src/bench/shared";

// What comes by a lazy import takes its time on a busy machine.
configure({ asyncUtilTimeout: 10_000 });

// Everything is built when it is asked for: a test of the waiting sets its own.
workshop.budget = Infinity;

afterEach(cleanup);
