/** The program of one inference thread: runs the networks on the processor. */
import { parentPort } from 'node:worker_threads';
import { answerJobs } from './answerJobs.js';

const port = parentPort;
if (port === null) throw new Error('this file is the program of a worker thread');
port.on(
  'message',
  answerJobs((message) => port.postMessage(message)),
);
