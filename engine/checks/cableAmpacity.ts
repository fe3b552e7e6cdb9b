import { insulationFacts } from '../catalog/insulation.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import type { Basis } from '../lineup/project.ts';
import { type Ampacity, ampacity } from '../physics/ampacity.ts';
import type { Amperes, Celsius } from '../physics/units.ts';

/** What a cable of the document may carry. */

/** The temperature the insulation may run at in a dry place: what is entered, and never more than its letters allow (NEC Table 310.4(1)). */
function dryLimit_C({ type, temperature_C }: Cable['insulation']): number | null {
  const letters_C = insulationFacts(type)?.temperatureDry_C;
  return temperature_C === undefined ? (letters_C ?? null) : Math.min(temperature_C, letters_C ?? temperature_C);
}

/** The temperature the insulation may run at here: the wet figure in a wet or unknown place. */
export function insulationTemperature_C(cable: Cable): number | null {
  const facts = insulationFacts(cable.insulation.type);
  const dry = dryLimit_C(cable.insulation);
  if (dry === null) return null;
  const wet =
    facts && cable.installation.moisture !== 'dry' && cable.installation.moisture !== 'damp'
      ? (facts.temperatureWet_C ?? facts.temperatureDry_C)
      : dry;
  return Math.min(dry, wet);
}

/** Ampacity with the terminals' temperature as given (null: no cap), or null where a value is missing. */
export function cableAmpacity(cable: Cable, basis: Basis, terminal_C: number | null): Ampacity | null {
  const { size, metal, sets } = cable.conductor;
  const temperature_C = insulationTemperature_C(cable);
  const { ambient_C, loadedConductors, groupedCircuits, method, soil_KmPerW } = cable.installation;
  if (size === undefined || metal === undefined || temperature_C === null || ambient_C === undefined) return null;
  if (basis === 'us' ? loadedConductors === undefined : groupedCircuits === undefined || method === undefined) return null;
  const polymer = insulationFacts(cable.insulation.type)?.polymer;
  const carried = ampacity({
    basis,
    size,
    metal,
    sets: sets ?? 1,
    insulationTemperature_C: temperature_C,
    terminalTemperature_C: terminal_C,
    ambient_C,
    loadedConductors: loadedConductors ?? 3,
    method: method ?? 'B1',
    groupedCircuits: groupedCircuits ?? 1,
    soil_KmPerW: soil_KmPerW ?? null,
    group: polymer === undefined || polymer === 'pvc' ? 'pvc' : 'xlpe',
  });
  const { type, temperature_C: entered_C = 0 } = cable.insulation;
  if (!carried || entered_C <= (dryLimit_C(cable.insulation) ?? entered_C)) return carried;
  return { ...carried, column: `${carried.column}, the most of ${type}: ${entered_C} °C is entered, and the two contradict each other` };
}

/** Temperature of the conductor under this load, T = Ta + (Tm − Ta)(I/Iz)², or null where the ampacity is not known. */
export function loadTemperature_C(cable: Cable, basis: Basis, current_A: Amperes): Celsius | null {
  const limit_C = insulationTemperature_C(cable);
  const carried = cableAmpacity(cable, basis, null);
  const { ambient_C } = cable.installation;
  if (limit_C === null || !carried || ambient_C === undefined) return null;
  return Math.min(400, ambient_C + (limit_C - ambient_C) * (current_A / carried.value_A) ** 2);
}

const terminalOf = (element: Element): number | null =>
  'terminalTemperature_C' in element && typeof element.terminalTemperature_C === 'number' ? element.terminalTemperature_C : null;

/** The cooler of the two terminals, and which of them are not known. */
export function terminals(ends: readonly Element[]): { readonly coolest_C: number | null; readonly unknown: readonly Element[] } {
  const marked = ends.filter((element) => element.kind !== 'supply');
  const known = marked.map(terminalOf).filter((value) => value !== null);
  return { coolest_C: known.length > 0 ? Math.min(...known) : null, unknown: marked.filter((element) => terminalOf(element) === null) };
}
