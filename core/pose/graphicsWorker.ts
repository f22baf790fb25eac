/**
 * The program of a process that runs the networks on the graphics adapter. Frames are decoded and cut out elsewhere
 * meanwhile.
 */
import { answerJobs } from './answerJobs.js';
import { startBackend } from './network.js';
import type { JobMessage } from './workerMessages.js';

// Ctrl-C reaches every process of a terminal; the main one ends this one in its own time, or by going away.
process.on('SIGINT', () => undefined);
process.on('disconnect', () => process.exit());

// The first backend asked for is the one of the process; a failure comes back with every job.
startBackend('graphics').catch(() => undefined);
const onJob = answerJobs((message) => process.send?.(message));
process.on('message', (message) => onJob(message as JobMessage));
