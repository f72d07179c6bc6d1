/** The part of psychrolib (MIT, without types of its own) that the comparisons call. */
declare module 'psychrolib' {
  interface Psychrolib {
    SI: number;
    SetUnitSystem(system: number): void;
    /** [Pa] from [°C] */
    GetSatVapPres(temperature: number): number;
    /** [°C] from [°C] and [Pa] */
    GetTDewPointFromVapPres(dryBulb: number, vapourPressure: number): number;
    /** [Pa] from [m] */
    GetStandardAtmPressure(elevation: number): number;
  }
  const psychrolib: Psychrolib;
  export default psychrolib;
}
