import { execFile } from 'node:child_process';
import type { Ffmpeg } from './locateFfmpeg.js';

const known = new Map<string, Promise<boolean>>();

/** Whether this ffmpeg was built with the filters that map high dynamic range (`zscale`, `tonemap`). */
export function canMapTones(ffmpeg: Ffmpeg): Promise<boolean> {
  let answer = known.get(ffmpeg.path);
  if (answer === undefined) {
    answer = new Promise((settle) => {
      execFile(
        ffmpeg.path,
        ['-hide_banner', '-filters'],
        { timeout: 20_000, windowsHide: true },
        (error, text) => settle(error === null && / zscale /.test(text) && / tonemap /.test(text)),
      );
    });
    known.set(ffmpeg.path, answer);
  }
  return answer;
}
