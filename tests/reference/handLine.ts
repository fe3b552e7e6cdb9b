/** A line of 80 Ω from the source to the motor, as the solver of travelling waves is told of it, where nothing else is said. */
export const handLine = (delay_s: number, impedance_ohm = 80, resistance_ohm = 0, from = 0, to = 1) => ({
  from,
  to,
  impedance_ohm,
  delay_s,
  resistance_ohm,
});
