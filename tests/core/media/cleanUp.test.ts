import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';

/** Signals that end a process: POSIX.1-2017, <signal.h>. The real ones would end the tests too, so none is sent. */
describe('what is put away on the way out', () => {
  let done: string[] = [];
  let onEarlyExit: typeof import('../../../core/media/cleanUp.js')['onEarlyExit'];
  const kill = vi.spyOn(process, 'kill').mockReturnValue(true);
  const others = { SIGHUP: process.listeners('SIGHUP'), SIGTERM: process.listeners('SIGTERM') };

  beforeEach(async () => {
    done = [];
    kill.mockClear();
    for (const signal of ['SIGHUP', 'SIGTERM'] as const) process.removeAllListeners(signal);
    vi.resetModules();
    ({ onEarlyExit } = await import('../../../core/media/cleanUp.js'));
  });
  afterEach(() => {
    for (const signal of ['SIGHUP', 'SIGTERM'] as const) {
      process.removeAllListeners(signal);
      for (const listener of others[signal]) process.on(signal, listener);
    }
  });

  test('a signal puts all of it away, also after one that fails, and then ends the process by the same signal', () => {
    onEarlyExit(() => {
      throw new Error('gone already');
    });
    onEarlyExit(() => done.push('folder'));
    process.emit('SIGHUP', 'SIGHUP');
    expect(done).toEqual(['folder']);
    expect(kill.mock.calls).toEqual([[process.pid, 'SIGHUP']]);
    expect(process.listenerCount('SIGHUP')).toBe(0);
  });

  test('a program that listens itself keeps control of how it ends', () => {
    onEarlyExit(() => done.push('folder'));
    process.on('SIGTERM', () => done.push('told'));
    process.emit('SIGTERM', 'SIGTERM');
    expect(done).toEqual(['told']);
    expect(kill).not.toHaveBeenCalled();
  });

  test('an end by the program itself puts it away, once, and nothing that the ordinary way has put away', () => {
    const before = new Set(process.listeners('exit'));
    const forget = onEarlyExit(() => done.push('folder'));
    onEarlyExit(() => done.push('part of a file'));
    forget();
    const [onExit] = process.listeners('exit').filter((listener) => !before.has(listener));
    for (let time = 0; time < 2; time += 1) onExit!(0);
    expect(done).toEqual(['part of a file']);
  });
});
