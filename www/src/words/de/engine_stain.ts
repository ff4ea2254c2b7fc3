/** First advice, plans, passes, looks before firing, practice. */
import { engineWords, type EngineTable } from '../engine';
import { coats, difference, list, third } from './engine_parts';
import { ofThird, upper } from './grammar';

/** „Das zervikale Drittel“. */
const the = (text: string): string => `Das ${third(text, 'e')}`;
/** „Cervical and middle third“. */
const thirds = (text: string): string => upper(`${text.replace(' and ', ' und ').replace(/cervical|middle|incisal/gi, (name) => ofThird(name, 'es'))} Drittel`);
/** „9 parts umber + 1 part slate“. */
const mix = (text: string): string =>
  text === 'nothing' ? 'nichts' : text.replace(/^(.+) alone$/, 'nur $1').split(' + ').map((share) => share.replace(/^(\d+) parts? /, (_, n: string) => `${n} ${n === '1' ? 'Teil' : 'Teile'} `)).join(' + ');

const NEXT_TIME: Record<string, string> = {
  'lay it thinner or one coat less there': 'dort dünner auftragen oder eine Schicht weniger',
  'lay a little more there': 'dort etwas mehr auftragen',
  'take less of the chromatic stain there': 'dort weniger von der kräftigen Malfarbe nehmen',
  'take more of the chromatic stain there': 'dort mehr von der kräftigen Malfarbe nehmen',
  'take a redder mix there': 'dort eine rötlichere Mischung nehmen',
  'take a yellower mix there': 'dort eine gelblichere Mischung nehmen',
};

const WAY: Record<string, string> = { redder: 'rötlicher', yellower: 'gelblicher', 'of another hue': 'von anderem Farbton' };

export const stain: EngineTable = [
  // First advice.
  ['Leave this third as it is.', 'Lassen Sie dieses Drittel, wie es ist.'],
  ['Lower the value: a thin coat of incisal grey, blended into the middle third.', 'Helligkeit senken: eine dünne Schicht Inzisalgrau, ins mittlere Drittel auslaufend.'],
  ['Lower the value: thin coats that take light away (grey, or the body stain if chroma is missing too).', 'Helligkeit senken: dünne Schichten, die Licht wegnehmen (Grau, oder die Dentin-Malfarbe, wenn auch Chroma fehlt).'],
  ['Add chroma: body stain across the neck, thinned towards the middle third.', 'Chroma erhöhen: Dentin-Malfarbe quer über den Zahnhals, zum mittleren Drittel hin auslaufend.'],
  ['Add chroma sparingly: very little body stain, so that the edge stays clear.', 'Chroma sparsam erhöhen: sehr wenig Dentin-Malfarbe, damit die Schneidekante klar bleibt.'],
  ['Add chroma: a thin coat of body stain.', 'Chroma erhöhen: eine dünne Schicht Dentin-Malfarbe.'],
  ['There is too much chroma.', 'Das Chroma ist zu hoch.'],
  ['Only the complementary colour lowers it, and it lowers the value as well;', 'Nur die Komplementärfarbe senkt es, und sie senkt auch die Helligkeit;'],
  ['a remake or a less chromatic base may be better.', 'eine Neuanfertigung oder eine weniger kräftige Basis ist vielleicht besser.'],
  ['Turn the hue towards red: a little of a redder stain.', 'Farbton Richtung Rot: ein wenig einer rötlicheren Malfarbe.'],
  ['Turn the hue towards yellow: a little of a yellower stain.', 'Farbton Richtung Gelb: ein wenig einer gelblicheren Malfarbe.'],
  ['The restoration is darker than its target.', 'Die Restauration ist dunkler als ihr Ziel.'],
  ['Surface stain does not raise value: this needs a lighter base or a remake.', 'Malfarbe hebt die Helligkeit nicht: Das braucht eine hellere Basis oder eine Neuanfertigung.'],
  // Cautions.
  ['Try the stain on a fired test piece of the same ceramic first;', 'Erproben Sie die Malfarbe zuerst an einem gebrannten Probestück derselben Keramik;'],
  ['this gives directions, not amounts.', 'hier stehen Richtungen, keine Mengen.'],
  ["Firing temperature, hold, number of firings and thickest coat are in the material's own instructions;", 'Brenntemperatur, Haltezeit, Zahl der Brände und größte Schichtdicke stehen in der Anleitung des Materials;'],
  ['every extra firing changes the colour.', 'jeder weitere Brand verändert die Farbe.'],
  ["Firing temperature, hold and number of firings are in the material's own instructions, not in this tool;", 'Brenntemperatur, Haltezeit und Zahl der Brände stehen in der Anleitung des Materials, nicht hier;'],
  ['every firing more changes the colour.', 'jeder weitere Brand verändert die Farbe.'],
  ['Ceramic dust, stain powders and glaze sprays need extraction, mask and gloves by local rules.', 'Keramikstaub, Malfarbenpulver und Glasursprays brauchen Absaugung, Maske und Handschuhe nach den örtlichen Regeln.'],
  ['Surface stain wears with the years;', 'Malfarbe nutzt sich mit den Jahren ab;'],
  ['plan to look at it again.', 'planen Sie, sie wieder anzusehen.'],
  ["The final judgement is the clinician's, at the try-in, wet, under two lights.", 'Das letzte Urteil bleibt in zahnärztlicher Hand: bei der Einprobe, feucht, unter zwei Lichtquellen.'],
  ["The final judgement is the clinician's, at the try-in, under two lights.", 'Das letzte Urteil bleibt in zahnärztlicher Hand: bei der Einprobe, unter zwei Lichtquellen.'],
  ['Try the mix on a swatch first: these are calculated colours.', 'Erproben Sie die Mischung zuerst an einer Brennprobe: Dies sind berechnete Farben.'],
  // Steps.
  [/^([A-Za-z, ]+) third: (.+), ([\d¼½¾]+) coats?\.$/, (zones, paint, n) => `${thirds(zones)}: ${mix(paint)}, ${coats(n)}.`],
  ['Foundation of glaze over the whole surface.', 'Grundierung aus Glasur über die ganze Oberfläche.'],
  ['Thin and even, from the middle outwards, until no brush strokes are left.', 'Dünn und gleichmäßig, von der Mitte nach außen, bis keine Pinselstriche mehr zu sehen sind.'],
  ['A wet, even shine;', 'Feuchter, gleichmäßiger Glanz;'],
  ['no pools at the neck, no dry places.', 'keine Pfützen am Zahnhals, keine trockenen Stellen.'],
  [/^Across the neck from side to side, fullest at the gum line([.;])$/, 'Quer über den Zahnhals von Seite zu Seite, am Zahnfleischrand am sattesten$1'],
  [/^Lengthwise over the body, in one thin, even film([.;])$/, 'Längs über den Zahnkörper, in einem dünnen, gleichmäßigen Film$1'],
  [/^In short strokes towards the edge, blended upwards into the body([.;])$/, 'In kurzen Strichen zur Schneidekante, nach oben in den Zahnkörper auslaufend$1'],
  [/^In one thin, even film, from the neck downwards([.;])$/, 'In einem dünnen, gleichmäßigen Film, vom Zahnhals abwärts$1'],
  [/^thinned out over (\S+ %) of the (.+ third|whole)([.;])$/, (share, zone, end) => `ausgedünnt über ${share} des ${third(zone, 'en')}s${end}`],
  [/^([A-Za-z, ]+) third fired: (.+ the bare restoration\.)$/, (zone, said) => `${thirds(zone)} gebrannt: ${engineWords(said)}`],
  [/^(L\* \S+, a\* \S+, b\* \S+ \(± ΔE00 \S+\)), (hardly different from|[a-z ,]+ than) the bare restoration\.$/, (lab, how) => `${lab}, ${how.startsWith('hardly') ? 'kaum verschieden von der unbemalten Restauration' : `${difference(how.replace(/ than$/, ''))} als die unbemalte Restauration`}.`],
  ['Look before firing, by eye and by photo.', 'Vor dem Brand ansehen, mit dem Auge und im Foto.'],
  ["From arm's length and from the side: lift what is too much, spread what is patchy, add what is missing.", 'Auf Armlänge und von der Seite: Abnehmen, was zu viel ist, verteilen, was fleckig ist, zugeben, was fehlt.'],
  ['Unfired paint looks other than fired;', 'Ungebrannt sieht Malfarbe anders aus als gebrannt;'],
  ['judge evenness and where it lies.', 'beurteilen Sie, wie gleichmäßig sie ist und wo sie liegt.'],
  [/^Most paint lies on the (.+ third);$/, (zone) => `Am meisten Malfarbe liegt auf dem ${third(zone, 'en')};`],
  ['no border shows.', 'keine Grenze ist zu sehen.'],
  ["Fire by the material's own instructions.", 'Nach der Anleitung des Materials brennen.'],
  ['The glaze is closed and shines evenly.', 'Die Glasur ist geschlossen und glänzt gleichmäßig.'],
  ['Photograph it again, card beside it, and open the photo here.', 'Mit der Karte daneben neu fotografieren und das Foto hier öffnen.'],
  ['The next step is planned from what came out, not from what was predicted.', 'Der nächste Schritt wird vom Ergebnis aus geplant, nicht von der Vorhersage.'],
  // Nothing to paint.
  ['Every third is already within what people see (ΔE00 0.8): leave it as it is.', 'Jedes Drittel ist schon näher, als man sieht (ΔE00 0.8): Lassen Sie es, wie es ist.'],
  ['The differences are within the doubt of the readings: another photo says more than a coat.', 'Die Unterschiede liegen im Rahmen der Messunsicherheit: Ein weiteres Foto sagt mehr als eine Schicht.'],
  ['No allowed mix brings a third that is seen to differ nearer by ΔE00 0.3 or more: a firing would gain nothing.', 'Keine erlaubte Mischung bringt ein sichtbar verschiedenes Drittel um ΔE00 0.3 oder mehr näher: Ein Brand brächte nichts.'],
  // What cannot be reached.
  [/^It stays ΔE00 ([^a-z]+|[^a-z]+ und [^a-z]+) from its target\.$/, 'Es bleibt ΔE00 $1 von seinem Ziel entfernt.'],
  [/^the target is lighter by L\* (.+?), and the lightening stain at hand does not bring it there\.$/, 'Das Ziel ist um L* $1 heller, und die vorhandene aufhellende Malfarbe bringt es nicht dorthin.'],
  [/^the target is lighter by L\* (.+?), and surface stain takes light away;$/, 'Das Ziel ist um L* $1 heller, und Malfarbe nimmt Licht weg;'],
  ['the one that lightens is ruled out by your limits.', 'die aufhellende schließen Ihre Grenzen aus.'],
  [/^the target is lighter by L\* (.+?), and surface stain takes light away, and no stain at hand is shown to lighten by its own swatches\.$/, 'Das Ziel ist um L* $1 heller; Malfarbe nimmt Licht weg, und keine vorhandene hellt nach ihren eigenen Brennproben auf.'],
  ['the target is darker;', 'Das Ziel ist dunkler;'],
  [/^with what may be used L\* stays (.+) too high\.$/, 'mit dem Erlaubten bleibt L* um $1 zu hoch.'],
  [/^it has more chroma than its target by C\* ([^a-z]+|[^a-z]+ und [^a-z]+)\.$/, 'Es hat um C* $1 mehr Chroma als sein Ziel.'],
  ['Only a complementary stain takes chroma away, and value with it, or a light one, at the price of opacity.', 'Chroma nimmt nur eine komplementäre Malfarbe weg, und Helligkeit mit ihm, oder eine helle, um den Preis der Opazität.'],
  [/^the target is (redder|yellower|of another hue), and no allowed mix turns the hue that far\.$/, (way) => `Das Ziel ist ${WAY[way]}, und keine erlaubte Mischung dreht den Farbton so weit.`],
  [/^value is raised by L\* (.+?) with a light, scattering stain\.$/, 'Die Helligkeit steigt um L* $1 durch eine helle, streuende Malfarbe.'],
  [/^The price is opacity \((.+?) % of the light comes back from the coats themselves\) and a flatter look\.$/, 'Der Preis ist Opazität ($1 % des Lichts kommen von den Schichten selbst zurück) und ein flacheres Aussehen.'],
  [/^the coats throw back (.+?) % of the light by themselves, so the surface may look flat\.$/, 'Die Schichten werfen selbst $1 % des Lichts zurück; die Oberfläche kann flach wirken.'],
  [/^(.+?) coats? in all would bring it to ΔE00 (.+);$/, (n, reached) => `${coats(n)} insgesamt würden es auf ΔE00 ${reached} bringen;`],
  [/^your limit is (.+?) coats? in (?:one firing|each of (\d) firings)\.$/, (n, firings) => `Ihre Grenze ist ${coats(n)} ${firings ? `in jedem von ${firings} Bränden` : 'in einem Brand'}.`],
  [/^(“.+”), which your limits leave out, would bring it to ΔE00 (.+)\.$/, (names, reached) => `${list(names)}, von Ihren Grenzen ausgelassen, würde es auf ΔE00 ${reached} bringen.`],
  [/^no allowed mix comes nearer than ΔE00 (.+)\.$/, 'Keine erlaubte Mischung kommt näher als ΔE00 $1.'],
  ["Plan another firing, if the material's instructions allow it.", 'Planen Sie einen weiteren Brand, wenn die Anleitung des Materials es erlaubt.'],
  ['Ask for a base nearer the target.', 'Bitten Sie um eine Basis, die näher am Ziel ist.'],
  ['Allow it and plan again.', 'Erlauben Sie es und planen Sie neu.'],
  ['Fire swatches of further stains and plan again.', 'Brennen Sie Proben weiterer Malfarben und planen Sie neu.'],
  ['Look at it on a swatch first.', 'Sehen Sie es zuerst an einer Brennprobe an.'],
  ['A remake in a lighter base keeps the depth.', 'Eine Neuanfertigung auf hellerer Basis behält die Tiefe.'],
  ['Use fewer coats and accept a remaining difference.', 'Nehmen Sie weniger Schichten und akzeptieren Sie einen Restunterschied.'],
  ['Remake it in a lighter base.', 'Fertigen Sie sie auf hellerer Basis neu an.'],
  ["If earlier stain made it dark: strip the stain and restart, as the material's instructions allow.", 'Wenn frühere Malfarbe sie dunkel gemacht hat: abtragen und neu beginnen, soweit die Anleitung des Materials es erlaubt.'],
  ['Ask the lab what the base allows.', 'Fragen Sie das Labor, was die Basis erlaubt.'],
  ['Allow more coats, or a stain that lowers value more (a grey).', 'Erlauben Sie mehr Schichten oder eine Malfarbe, die die Helligkeit stärker senkt (ein Grau).'],
  ['Ask for a darker base.', 'Bitten Sie um eine dunklere Basis.'],
  ['Strip the stain and restart, if stain made it so.', 'Tragen Sie die Malfarbe ab und beginnen Sie neu, wenn sie der Grund ist.'],
  ['Remake it in a base of less chroma.', 'Fertigen Sie sie auf einer Basis mit weniger Chroma neu an.'],
  ['Ask the lab.', 'Fragen Sie das Labor.'],
  ['Fire a swatch of a stain of that hue and plan again.', 'Brennen Sie eine Probe einer Malfarbe in diesem Farbton und planen Sie neu.'],
  ['Ask for a base of the right hue family.', 'Bitten Sie um eine Basis der richtigen Farbtongruppe.'],
  // After firing.
  [/^Came out as predicted \(ΔE00 (\S+) apart, within the doubt\)\.$/, 'Wie vorhergesagt geworden (ΔE00 $1 auseinander, im Rahmen der Unsicherheit).'],
  [/^Came out ΔE00 (\S+?) from what was predicted(?:: ([a-z ,]+))?\.$/, (by, how) => `Ergebnis ΔE00 ${by} neben der Vorhersage${how ? `: ${difference(how)}` : ''}.`],
  [/^The coats did about (\S+ %) of what was meant: thinner coats, or lost in the fire\.$/, 'Die Schichten bewirkten etwa $1 des Gewollten: dünnere Schichten, oder im Brand verloren.'],
  [/^The coats did about (\S+ %) of what was meant: thicker coats than planned\.$/, 'Die Schichten bewirkten etwa $1 des Gewollten: dickere Schichten als geplant.'],
  ['Stop here: what is left is less than people see (ΔE00 0.8).', 'Hier aufhören: Was bleibt, ist weniger, als man sieht (ΔE00 0.8).'],
  [/^Stop here: the ([a-z ]+) is ΔE00 (\S+) from its target, within the doubt of the readings;$/, (zone, left) => `Hier aufhören: ${the(zone)} ist ΔE00 ${left} vom Ziel entfernt, im Rahmen der Messunsicherheit;`],
  ['another pass would chase noise.', 'ein weiterer Durchgang liefe dem Rauschen nach.'],
  [/^Stop here: the ([a-z ]+) is ΔE00 (\S+) from its target, and no stain at hand brings it nearer\.$/, (zone, left) => `Hier aufhören: ${the(zone)} ist ΔE00 ${left} vom Ziel entfernt, und keine vorhandene Malfarbe bringt es näher.`],
  [/^Another pass would help: the ([a-z ]+) is ΔE00 (\S+) from its target\.$/, (zone, left) => `Ein weiterer Durchgang würde helfen: ${the(zone)} ist ΔE00 ${left} vom Ziel entfernt.`],
  // Before firing.
  [/^Directions only: (\d+) of your own pairs of unfired and fired readings are known;$/, (n) => `Nur Richtungen: Von Ihnen ${n === '1' ? 'ist 1 Paar' : `sind ${n} Paare`} aus ungebrannter und gebrannter Messung bekannt;`],
  ['from 4 that agree the fired colour can be predicted.', 'ab 4, die zusammenpassen, lässt sich die gebrannte Farbe vorhersagen.'],
  [/^Predicted from (\d+) of your own pairs of unfired and fired readings\.$/, 'Vorhergesagt aus $1 Ihrer eigenen Paare von ungebrannter und gebrannter Messung.'],
  [/^The ([a-z ]+) is as meant: leave it\.$/, (zone) => `${the(zone)} ist wie gewollt: so lassen.`],
  [/^The ([a-z ]+) has too much(?: \(about (\S+ %) of what was meant\))?: lift or thin it\.$/, (zone, share) => `${the(zone)} hat zu viel${share ? ` (etwa ${share} des Gewollten)` : ''}: abnehmen oder ausdünnen.`],
  [/^The ([a-z ]+) has too little(?: \(about (\S+ %) of what was meant\))?: add a little\.$/, (zone, share) => `${the(zone)} hat zu wenig${share ? ` (etwa ${share} des Gewollten)` : ''}: etwas zugeben.`],
  [/^The ([a-z ]+) is patchy \(unevenness ΔE00 (\S+)\): spread it before anything else\.$/, (zone, by) => `${the(zone)} ist fleckig (Ungleichmäßigkeit ΔE00 ${by}): zuallererst verteilen.`],
  [/^The ([a-z ]+) is meant to change less than can be told before firing\.$/, (zone) => `${the(zone)} soll sich weniger verändern, als vor dem Brand zu erkennen ist.`],
  [/^Nothing stands out in the (.+ third|whole)\.$/, (zone) => `Im ${third(zone, 'en')} fällt nichts auf.`],
  [/^The ([a-z ]+) has changed (more|less) than the rest of the plan lets expect: look whether there is too (?:much|little)\.$/, (zone, way) => `${the(zone)} hat sich ${way === 'more' ? 'mehr' : 'weniger'} verändert, als der übrige Plan erwarten lässt: Sehen Sie nach, ob dort zu ${way === 'more' ? 'viel' : 'wenig'} liegt.`],
  // Practice.
  [/^([A-Za-z ]+) is furthest off \(ΔE00 (\S+): (.+)\): next time (.+)\.$/, (zone, by, how, then) => `Am weitesten entfernt ist ${the(zone).replace(/^D/, 'd')} (ΔE00 ${by}: ${engineWords(how)}): nächstes Mal ${NEXT_TIME[then] ?? then}.`],
  [/^it is more uneven than the target by ΔE00 (\S+): next time spread each coat longer and thinner\.$/, 'sie ist um ΔE00 $1 ungleichmäßiger als das Ziel: nächstes Mal jede Schicht länger und dünner verteilen.'],
  ['The colour is there;', 'Die Farbe stimmt;'],
  ["Each third is near, but the change from neck to edge is not the target's: next time feather the neck and the edge further into the body.", 'Jedes Drittel ist nahe, aber der Verlauf vom Zahnhals zur Schneidekante ist nicht der des Ziels: nächstes Mal Zahnhals und Schneidekante weiter in den Zahnkörper auslaufen lassen.'],
  ['Nothing to do differently: what is left is less than people see, or within the doubt.', 'Nichts anders zu machen: Was bleibt, ist weniger, als man sieht, oder im Rahmen der Unsicherheit.'],
];
