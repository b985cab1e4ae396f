/**
 * Hot gauge pressure, Pa, of the air in the tyre: (p_hot + p_atm) V_hot/T_hot = (p_cold + p_atm) V_cold/T_cold.
 * Ideal gas law on absolute pressures; the commonest slip is to scale the gauge pressure.
 * @param coldPressure  gauge, Pa, as set
 * @param coldTemperature  K, > 0, when it was set
 * @param hotTemperature  K, at the moment in hand
 * @param volumeRatio  hot over cold inner volume, 1
 * @param stationPressure  absolute air pressure at the track, Pa
 */
export function hotPressure(
  coldPressure: number,
  coldTemperature: number,
  hotTemperature: number,
  volumeRatio: number,
  stationPressure: number,
): number {
  return (
    ((coldPressure + stationPressure) * hotTemperature) / (coldTemperature * volumeRatio) - stationPressure
  );
}
