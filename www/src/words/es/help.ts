import type { Words } from '../index';

/** What the words of the trade mean: two sentences each, shown where the word stands. */
export const help: Words['help'] = {
  close: 'Cerrar',
  terms: {
    shown: { value: 'Valor', chroma: 'Croma', hue: 'Tono', deltaE: 'ΔE00', doubt: 'Incertidumbre' },
    texts: {
      value: 'El valor (L*) dice lo claro que es un color, desde 0 para el negro hasta 100 para el blanco. Los tintes lo bajan; solo puede subirlo aquel cuyas propias probetas lo muestren.',
      chroma: 'El croma (C*) dice lo intenso que es un color; un gris puro tiene 0. Dos colores pueden tener el mismo valor y el mismo tono y aun así diferir, porque uno es más intenso.',
      hue: 'El tono (h) dice de qué color se trata, como ángulo: cerca de 0° rojo, cerca de 90° amarillo. Cuando el croma es pequeño, el tono apenas se ve y su ángulo es inseguro.',
      // Paravina et al. 2015, J Esthet Restor Dent 27(S1):S1–S9.
      deltaE: 'ΔE00 (CIEDE2000) dice cuánto distan dos colores, en valor, croma y tono a la vez. En un estudio con cerámicas dentales, la mitad de los observadores vio una diferencia a partir de 0,8 y la mitad dejó de aceptarla a partir de 1,8 (Paravina et al. 2015).',
      doubt: 'La incertidumbre (±) dice cuánto puede desviarse un valor por la luz, la tarjeta y la foto, unas 95 veces de cada 100. Una diferencia menor que su incertidumbre no se puede afirmar.',
    },
  },
};
