// The library ships no types: the functions the checks use, as its documentation gives them.
declare module 'psychrolib' {
  type Psychrolib = {
    readonly SI: number
    SetUnitSystem(system: number): void
    /** °C to Pa. */
    GetSatVapPres(celsius: number): number
    /** °C and relative humidity 0 to 1, to °C. */
    GetTDewPointFromRelHum(celsius: number, humidity: number): number
    /** °C and °C, to relative humidity 0 to 1. */
    GetRelHumFromTDewPoint(celsius: number, dewPoint: number): number
    /** °C, relative humidity 0 to 1 and Pa, to kg of water in a kg of dry air. */
    GetHumRatioFromRelHum(
      celsius: number,
      humidity: number,
      pascals: number,
    ): number
  }
  const psychrolib: Psychrolib
  export default psychrolib
}
