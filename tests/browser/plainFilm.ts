import { execFileSync } from 'node:child_process';
import { locateFfmpeg } from '../../core/media/locateFfmpeg.js';

/** Makes a small film of a test picture: what it shows does not matter here, only that it plays and seeks. */
export async function makePlainFilm(file: string, seconds: number): Promise<void> {
  const ffmpeg = await locateFfmpeg();
  const source = `testsrc=size=96x128:rate=10:duration=${seconds}`;
  execFileSync(
    ffmpeg.path,
    ['-hide_banner', '-loglevel', 'error', '-f', 'lavfi', '-i', source]
      .concat(['-c:v', 'libx264', '-preset', 'ultrafast', '-g', '20', '-pix_fmt', 'yuv420p'])
      .concat(['-movflags', '+faststart', file]),
  );
}
