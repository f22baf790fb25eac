import { describe, expect, test } from 'vitest';
import type { HostEvents, InferenceHost, StartHost } from '../../../core/pose/inferenceHost.js';
import type { InferenceJob, JobMessage } from '../../../core/pose/workerMessages.js';
import { startWorkerPool } from '../../../core/pose/workerPool.js';

const JOB: InferenceJob = { kind: 'look', picture: new Uint8Array(0) };

/** Hosts that do with each message what `act` says. */
function hosts(act: (message: JobMessage, events: HostEvents, host: number) => void) {
  const state = { started: 0, ended: 0 };
  const start: StartHost = (events) => {
    const number = state.started++;
    const host: InferenceHost = {
      post: (message) => queueMicrotask(() => act(message, events, number)),
      async end() {
        state.ended += 1;
      },
    };
    return host;
  };
  return { state, start };
}

const answered = ({ id }: JobMessage, events: HostEvents) =>
  events.onAnswer({ id, kind: 'result', result: [Float32Array.of(id)], milliseconds: 5 });

describe('the worker pool', () => {
  test('answers every job with its own answer, and adds up the time', async () => {
    const { state, start } = hosts(answered);
    const pool = startWorkerPool(3, 'processor', start);
    const answers = await Promise.all(Array.from({ length: 20 }, () => pool.run(JOB)));
    expect(answers.map(([points]) => points![0])).toEqual(Array.from({ length: 20 }, (_, index) => index));
    expect(pool.busyMilliseconds()).toBe(100);
    await pool.close();
    expect(state).toEqual({ started: 3, ended: 3 });
    await expect(pool.run(JOB)).rejects.toThrow('closed');
  });

  test('starts a host again that ended, and loses no job', async () => {
    const { state, start } = hosts((message, events, host) =>
      host === 0 ? events.onEnd(new Error('gone')) : answered(message, events),
    );
    const pool = startWorkerPool(1, 'processor', start);
    const answers = await Promise.all([pool.run(JOB), pool.run(JOB), pool.run(JOB)]);
    expect(answers).toHaveLength(3);
    expect(state.started).toBe(2);
    await pool.close();
  });

  test('puts fresh hosts in the place of those it has, and answers with them', async () => {
    const hostsAsked = new Set<number>();
    const { state, start } = hosts((message, events, host) => {
      hostsAsked.add(host);
      answered(message, events);
    });
    const pool = startWorkerPool(2, 'processor', start);
    await Promise.all([pool.run(JOB), pool.run(JOB)]);
    await pool.renew();
    expect(state).toEqual({ started: 4, ended: 2 });
    await Promise.all([pool.run(JOB), pool.run(JOB)]);
    expect([...hostsAsked]).toEqual([0, 1, 2, 3]);
    await pool.close();
    await pool.renew();
    expect(state).toEqual({ started: 4, ended: 4 });
  });

  test('keeps graphics processes, which take seconds to start', async () => {
    const { state, start } = hosts(answered);
    const pool = startWorkerPool(2, 'graphics', start);
    await pool.renew();
    expect(state).toEqual({ started: 2, ended: 0 });
    await pool.close();
  });

  test('gives up a job that ended two hosts, and answers the others', async () => {
    const { start } = hosts((message, events) =>
      message.id === 1 ? events.onEnd(new Error('gone')) : answered(message, events),
    );
    const pool = startWorkerPool(1, 'processor', start);
    const [first, second, third] = await Promise.allSettled([pool.run(JOB), pool.run(JOB), pool.run(JOB)]);
    expect([first.status, second.status, third.status]).toEqual(['fulfilled', 'rejected', 'fulfilled']);
    await pool.close();
  });

  test('gives up where workers end before they answer anything', async () => {
    const { state, start } = hosts((_message, events) => events.onEnd(new Error('gone')));
    const pool = startWorkerPool(1, 'processor', start);
    const answers = await Promise.allSettled(Array.from({ length: 6 }, () => pool.run(JOB)));
    expect(answers.every(({ status }) => status === 'rejected')).toBe(true);
    expect(String((answers.at(-1) as PromiseRejectedResult).reason)).toContain('do not keep running');
    // One to begin with, and three that were put in its place.
    expect(state.started).toBe(4);
  });

  test('hands a failure on with its remedy', async () => {
    const { start } = hosts(({ id }, events) =>
      events.onAnswer({ id, kind: 'failure', failureKind: 'installation', message: 'no', remedy: 'do' }),
    );
    const pool = startWorkerPool(1, 'graphics', start);
    await expect(pool.run(JOB)).rejects.toMatchObject({ kind: 'installation', remedy: 'do' });
    await pool.close();
  });
});
