import { TABLE_9 } from './acImpedance.ts';
import { TABLE_310_15_B, TABLE_310_15_C, TABLE_310_16 } from './ampacity.ts';
import { DENSITY, IEC_60228, TABLE_8 } from './conductors.ts';
import { FILL_TABLE_1, FILL_TABLE_4 } from './conduitFill.ts';
import { IEC_RATINGS_SOURCE, US_RATINGS_SOURCE } from './deviceRatings.ts';
import { TABLE_54_2, TABLE_250_122 } from './groundingConductors.ts';
import { CURRENT_SOURCE, VOLTAGE_SOURCE } from './harmonicLimits.ts';
import { IEC_AMBIENT_SOURCE, IEC_AMPACITY, IEC_GROUPING_GROUND_SOURCE, IEC_GROUPING_SOURCE, IEC_SOIL_SOURCE } from './iecAmpacity.ts';
import { INCEPTION_SOURCE } from './inception.ts';
import { INSULATION_TYPES_IEC, INSULATION_TYPES_US, WALL_SOURCES } from './insulation.ts';
import { IEC_MOTOR_SOURCE, NEMA_EFFICIENCY, NEMA_POWER_FACTOR, TABLE_430_250 } from './motors.ts';
import { RISE_TIMES } from './riseTimes.ts';
import type { Source } from './source.ts';

/** Every table of the catalogue, for the page of sources. `module` is the file that holds it. */
export interface TableFacts {
  readonly title: string;
  readonly module: string;
  readonly source: Source;
  /** Read on this basis alone, whatever is drawn. */
  readonly basis?: 'us' | 'iec';
}

const row = (module: string, title: string, source: Source, basis?: 'us' | 'iec'): TableFacts => ({
  module,
  title,
  source,
  ...(basis && { basis }),
});

export const TABLES: readonly TableFacts[] = [
  row('conductors', 'Conductor areas, diameters, d.c. resistance', TABLE_8),
  row('conductors', 'Conductor resistance by class', IEC_60228),
  row('conductors', 'Density of conductor metals', DENSITY),
  row('acImpedance', 'A.c. resistance and reactance in conduit', TABLE_9),
  row('ampacity', 'Ampacity', TABLE_310_16, 'us'),
  row('ampacity', 'Ambient correction', TABLE_310_15_B, 'us'),
  row('ampacity', 'Adjustment for loaded conductors', TABLE_310_15_C, 'us'),
  ...IEC_AMPACITY.map(({ metal, group, method, source }) =>
    row('iecAmpacity', `Ampacity, ${metal}, ${group === 'pvc' ? 'PVC' : 'XLPE or EPR'}, method ${method}`, source, 'iec'),
  ),
  row('iecAmpacity', 'Ambient correction, air and soil', IEC_AMBIENT_SOURCE, 'iec'),
  row('iecAmpacity', 'Thermal resistivity of the soil', IEC_SOIL_SOURCE, 'iec'),
  row('iecAmpacity', 'Grouping', IEC_GROUPING_SOURCE, 'iec'),
  row('iecAmpacity', 'Grouping, laid direct in soil', IEC_GROUPING_GROUND_SOURCE, 'iec'),
  row('insulation', 'Insulation types', INSULATION_TYPES_US),
  row('insulation', 'Insulation types', INSULATION_TYPES_IEC),
  row('insulation', 'Wall by type and size', WALL_SOURCES.us),
  row('insulation', 'Wall by type and size', WALL_SOURCES.iec),
  row('inception', 'Permittivity and moisture, for the onset of discharges', INCEPTION_SOURCE),
  row('riseTimes', 'Rise times of switches', RISE_TIMES),
  row('groundingConductors', 'Equipment grounding conductors', TABLE_250_122, 'us'),
  row('groundingConductors', 'Protective conductors', TABLE_54_2, 'iec'),
  row('conduitFill', 'Most fill', FILL_TABLE_1),
  row('conduitFill', 'Internal areas of raceways', FILL_TABLE_4),
  row('motors', 'Motor currents', TABLE_430_250),
  row('motors', 'Motor efficiency', NEMA_EFFICIENCY),
  row('motors', 'Motor power factor', NEMA_POWER_FACTOR),
  row('motors', 'Motor currents, efficiency and power factor', IEC_MOTOR_SOURCE, 'iec'),
  row('deviceRatings', 'Standard ratings of devices', US_RATINGS_SOURCE, 'us'),
  row('deviceRatings', 'Preferred ratings of devices', IEC_RATINGS_SOURCE, 'iec'),
  row('harmonicLimits', 'Limits of voltage distortion', VOLTAGE_SOURCE),
  row('harmonicLimits', 'Limits of current distortion', CURRENT_SOURCE),
];
