import { fixed, inUnitOf, type LineUp, type SolvedRun, TURNS, unitOf, waveCharts, waveformOf } from '../../engine/index.ts';
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
  const { units } = lineUp.project;
  const rows = wave.samples.filter((_, i) => i % 12 === 0);
  return (
    <section>
      <h2>The wave</h2>
      {waveCharts(wave, limit_V, units).map((items, i) => (
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
      {wave.turn_s !== null &&
        TURNS.map((each) => (
          <p key={each} className="muted">
            {each}
          </p>
        ))}
      <details>
        <summary>As a table</summary>
        <Numbers heads={['µs', 'V']} rows={rows.map(([s, volts]) => [fixed(s * 1e6, 2), fixed(volts, 0)])} />
        {wave.byLength.length > 0 && (
          <Numbers
            heads={[unitOf('length', units), 'V', 'at least', 'at most']}
            rows={wave.byLength
              .filter((_, i) => i % 4 === 0)
              .map((each) => [
                fixed(inUnitOf(each.length_m, 'length', units), 1),
                fixed(each.central_V, 0),
                fixed(each.low_V, 0),
                fixed(each.high_V, 0),
              ])}
          />
        )}
      </details>
    </section>
  );
}

function Numbers({ heads, rows }: { readonly heads: readonly string[]; readonly rows: readonly (readonly string[])[] }) {
  return (
    <table className="inputs">
      <thead>
        <tr>
          {heads.map((head) => (
            <th key={head} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row[0]}>
            {row.map((cell, i) => (
              <td key={heads[i]}>{cell}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
