/** The program of one inference process: runs the networks on the processor, natively where it can. */
import { answerJobs } from './answerJobs.js';
import type { JobMessage } from './workerMessages.js';

// Ctrl-C reaches every process of a terminal; the main one ends this one in its own time, or by going away.
process.on('SIGINT', () => undefined);
process.on('disconnect', () => process.exit());

const onJob = answerJobs((message) => process.send?.(message), { native: true });
process.on('message', (message) => onJob(message as JobMessage));
