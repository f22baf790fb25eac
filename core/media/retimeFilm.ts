import {
  EncodedPacket,
  EncodedPacketSink,
  EncodedVideoPacketSource,
  FilePathSource,
  FilePathTarget,
  Input,
  MP4,
  Mp4OutputFormat,
  Output,
} from 'mediabunny';

/**
 * Copies an MP4 film whose packets stand in presentation order, giving each picture a new time. ffmpeg takes raw
 * pictures from a pipe only at an even rate, so films of variable rate are made in this second step.
 *
 * @param times New presentation times in seconds, one a picture, increasing.
 * @param frameRate Gives the last picture its length.
 */
export async function retimeFilm(
  from: string,
  to: string,
  times: readonly number[],
  frameRate: number,
): Promise<void> {
  const input = new Input({ formats: [MP4], source: new FilePathSource(from) });
  try {
    const track = await input.getPrimaryVideoTrack();
    const codec = await track?.getCodec();
    const decoderConfig = await track?.getDecoderConfig();
    if (!track || !codec || !decoderConfig) throw new Error(`No film track in ${from}.`);

    const output = new Output({ format: new Mp4OutputFormat(), target: new FilePathTarget(to) });
    const source = new EncodedVideoPacketSource(codec);
    output.addVideoTrack(source);
    await output.start();
    let index = 0;
    for await (const packet of new EncodedPacketSink(track).packets()) {
      const seconds = times[index];
      if (seconds === undefined) break;
      const duration = (times[index + 1] ?? seconds + 1 / frameRate) - seconds;
      await source.add(new EncodedPacket(packet.data, packet.type, seconds, duration), { decoderConfig });
      index += 1;
    }
    if (index !== times.length) throw new Error(`${index} pictures for ${times.length} times.`);
    await output.finalize();
  } finally {
    input.dispose();
  }
}
