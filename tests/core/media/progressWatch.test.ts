import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { watchProgress } from '../../../core/media/progressWatch.js';

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

test('an ffmpeg whose time stands still is given up once, after the time allowed', () => {
  const stalled = vi.fn();
  const watch = watchProgress(60, stalled);
  vi.advanceTimersByTime(59_000);
  expect(watch.read('out_time_ms=1500000')).toBe(1.5);
  vi.advanceTimersByTime(59_000);
  // The same time again, and lines of other kinds, are no progress.
  expect(watch.read('out_time_ms=1500000')).toBeNull();
  expect(watch.read('frame=45')).toBeNull();
  expect(stalled).not.toHaveBeenCalled();
  vi.advanceTimersByTime(1000);
  expect(stalled).toHaveBeenCalledOnce();
  expect(watch.hasStalled()).toBe(true);
  vi.advanceTimersByTime(600_000);
  expect(stalled).toHaveBeenCalledOnce();
});

test('one that ended in time is not', () => {
  const stalled = vi.fn();
  const watch = watchProgress(60, stalled);
  expect(watch.read('out_time_ms=N/A')).toBeNull();
  watch.end();
  vi.advanceTimersByTime(600_000);
  expect(stalled).not.toHaveBeenCalled();
  expect(watch.hasStalled()).toBe(false);
});
