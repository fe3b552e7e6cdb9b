import type { WaveNetwork } from '../../engine/physics/wave/characteristics.ts';

/** The same tree of lines as a deck for the circuit simulator; losses of the lines left out. */
export function deckOf({ lines, shunts, source, inductance_H, across_ohm, watch, until_s }: WaveNetwork): string {
  const text = ['* travelling waves', `Vs in 0 PWL(${source.map(([t, v]) => `${t} ${v}`).join(' ')})`];
  if (inductance_H) text.push(`Lr in n0 ${inductance_H}`, `Rc in n0 ${across_ohm}`);
  else text.push('Vz in n0 0');
  text.push(...lines.map((each, i) => `T${i} n${each.from} 0 n${each.to} 0 Z0=${each.impedance_ohm} TD=${each.delay_s}`));
  shunts.forEach((each, i) => {
    if (each.capacitance_F) text.push(`R${i} n${each.node} c${i} ${each.resistance_ohm}`, `C${i} c${i} 0 ${each.capacitance_F}`);
    else text.push(`R${i} n${each.node} 0 ${each.resistance_ohm}`);
  });
  text.push(
    '.options reltol=1e-5 abstol=1e-9 vntol=1e-6',
    `.tran 1n ${until_s} 0 1n`,
    `.meas tran vpk MAX v(n${watch})`,
    `.meas tran vmn MIN v(n${watch})`,
    '.end',
    '',
  );
  return text.join('\n');
}
