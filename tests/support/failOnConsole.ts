import { afterEach, beforeEach, expect, vi } from 'vitest';

// The core never prints: a call to the console in a test is a defect, so it fails the test that made it.
const methods = ['log', 'info', 'warn', 'error', 'debug'] as const;

beforeEach(() => {
  for (const method of methods) vi.spyOn(console, method);
});

afterEach(() => {
  const calls = methods.flatMap((method) => vi.mocked(console[method]).mock.calls);
  vi.restoreAllMocks();
  expect(calls, 'code under test called the console').toEqual([]);
});
