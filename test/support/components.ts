/** What every component test starts with: matchers for the page, and a page that is empty again after each test. */
import "@testing-library/jest-dom/vitest";
import { cleanup } from "@testing-library/react";
import { afterEach } from "vitest";
import { workshop } from "../../src/bench/shared";

// Everything is built when it is asked for: a test of the waiting sets its own.
workshop.budget = Infinity;

afterEach(cleanup);
