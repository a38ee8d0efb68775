/**
 * The light that a value of a screen stands for, from 0 to 1.
 *
 * @param value 0 to 255, sRGB
 * Source: IEC 61966-2-1, 5.2.
 */
export function linearLight(value: number): number {
  const share = value / 255
  return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
}

/**
 * And back: the value of a screen for so much light.
 *
 * @param light 0 to 1
 * @returns 0 to 255, sRGB, not rounded
 * Source: IEC 61966-2-1, 5.3.
 */
export function screenValue(light: number): number {
  const share =
    light <= 0.0031308 ? light * 12.92 : 1.055 * light ** (1 / 2.4) - 0.055
  return share * 255
}
