import { fixed, type LineUp, type SolvedRun, waveCharts, waveformOf } from '../../engine/index.ts';
import { Paint } from '../sheet/Paint.tsx';

/** The wave of a run as it was solved, and the same numbers as a table. */
export interface WavePictureProps {
  readonly lineUp: LineUp;
  readonly run: SolvedRun;
  readonly limit_V: number | null;
}

export default function WavePicture({ lineUp, run, limit_V }: WavePictureProps) {
  const wave = waveformOf(lineUp, run);
  if (!wave) return null;
  const rows = wave.samples.filter((_, i) => i % 12 === 0);
  return (
    <section>
      <h2>The wave</h2>
      {waveCharts(wave, limit_V).map((items, i) => (
        <svg
          key={i === 0 ? 'time' : 'length'}
          viewBox="-2 -1 122 73"
          className="chart"
          role="img"
          aria-label={i === 0 ? `Voltage at ${wave.motorTag} after one edge` : `Peak at ${wave.motorTag} against length`}
        >
          <Paint items={items} />
        </svg>
      ))}
      <details>
        <summary>As a table</summary>
        <table className="inputs">
          <thead>
            <tr>
              <th scope="col">µs</th>
              <th scope="col">V</th>
            </tr>
          </thead>
          <tbody>
            {rows.map(([s, volts]) => (
              <tr key={s}>
                <td>{fixed(s * 1e6, 2)}</td>
                <td>{fixed(volts, 0)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </section>
  );
}
