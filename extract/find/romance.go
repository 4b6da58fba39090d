package find

import (
	"slices"
	"strings"
)

// Italian and Portuguese share many small words with the five languages that mean
// something else there: "due" is two, "alle" is at, "das" is from. So they are read only
// where the caller names the language, as a page that declares it does, and then by
// putting the word that the finders know in place of theirs. The span of a token and
// what is printed there stay as they are.
const (
	Italian    Lang = "it"
	Portuguese Lang = "pt"
)

const italianData = `
las dalle le
to alle fino sino
and e ed
between tra fra
from dal
de di della dello dei degli delle
tarde pomeriggio
soir sera
matin mattina mattino
midi mezzogiorno
midnight mezzanotte
hours ore ora
minutes minuti minuto
day giorno
days giorni
week settimana
weeks settimane
monday lunedi
tuesday martedi
wednesday mercoledi
thursday giovedi
friday venerdi
saturday sabato
sunday domenica
september set
year anno
today oggi
yesterday ieri
tomorrow domani
overmorgen dopodomani
half mezza mezzo
dollars dollari dollaro
cents centesimi centesimo
crowns corone corona
pound lira lire sterlina
sterling sterline
rubles rubli rublo
rupees rupie rupia
francs franchi franco
swiss svizzeri svizzero
swedish svedesi svedese
danish danesi danese
norwegian norvegesi norvegese
canadian canadesi canadese
australian australiani australiano
american americani americano statunitensi
british britanniche britannica inglesi
million milioni milione
billion miliardi miliardo
first primo
second secondo
third terzo
fourth quarto
last ultimo
`

const portugueseData = `
las das as
until ate
and e
between entre
de da do dos
manana manha
minutes minutos minuto
day dia
today hoje
yesterday ontem
tomorrow amanha
march marco
days dias
week semana
weeks semanas
saturday sabado
september set
half meia meio
cents centavos centavo centimos
crowns coroas coroa
pounds libras libra
rupees rupias rupia
francs francos franco
swiss suicos suico
yen ienes iene
dollars dolares dolar
swedish suecas sueca
danish dinamarquesas
norwegian norueguesas
million milhoes milhao
billion bilhoes bilhao
first primeiro
second segundo
third terceiro
fourth quarto
last ultimo
one um uma
two dois duas
three tres
four quatro
five cinco
six seis
seven sete
eight oito
nine nove
ten dez
eleven onze
twelve doze
thirteen treze
fourteen catorze quatorze
fifteen quinze
sixteen dezesseis dezasseis
seventeen dezessete dezassete
eighteen dezoito
nineteen dezenove dezanove
twenty vinte
thirty trinta
forty quarenta
fifty cinquenta
sixty sessenta
seventy setenta
eighty oitenta
ninety noventa
hundred cem cento
thousand mil
zweitausend doismil
`

// instead gives, for a language, the word that the finders know in place of each of its own.
var instead = map[Lang]map[string]string{Italian: italian(), Portuguese: replacements(portugueseData)}

// replacements returns, for each word of a line but the first, that first one.
func replacements(data string) map[string]string {
	m := make(map[string]string)
	for line := range strings.Lines(data) {
		f := strings.Fields(line)
		for _, w := range f[min(1, len(f)):] {
			m[w] = f[0]
		}
	}
	return m
}

// italian adds the numbers, which are written as one word up to 99 and from 2000 to 2099.
func italian() map[string]string {
	m := replacements(italianData)
	ones := strings.Fields("uno due tre quattro cinque sei sette otto nove dieci undici dodici tredici quattordici quindici sedici diciassette diciotto diciannove")
	for i, german := range strings.Fields("ein zwei drei vier funf sechs sieben acht neun zehn elf zwolf dreizehn vierzehn funfzehn sechzehn siebzehn achtzehn neunzehn") {
		m[ones[i]] = german
		if i >= 9 {
			m["duemila"+ones[i]] = "zweitausend" + german
		}
	}
	units := strings.Fields("ein zwei drei vier funf sechs sieben acht neun")
	tens := strings.Fields("venti trenta quaranta cinquanta sessanta settanta ottanta novanta")
	for i, german := range strings.Fields("zwanzig dreissig vierzig funfzig sechzig siebzig achtzig neunzig") {
		m[tens[i]] = german
		m[strings.TrimRight(tens[i], "ai")] = german // "trent otto"
		for n, unit := range units {
			w := tens[i] + ones[n]
			if ones[n] == "uno" || ones[n] == "otto" {
				w = tens[i][:len(tens[i])-1] + ones[n]
			}
			m[w] = unit + "und" + german
			m["duemila"+w] = "zweitausend" + unit + "und" + german
		}
	}
	for w, known := range map[string]string{"una": "one", "cento": "hundred", "mille": "thousand", "mila": "thousand", "duemila": "zweitausend"} {
		m[w] = known
	}
	return m
}

// newScan cuts text into tokens; of a single language beside the five it puts the words
// that the finders know in place of its own.
func newScan(text string, l Languages) *scan {
	s := &scan{tokens: cut(text), l: l}
	if len(l) != 1 || instead[l[0]] == nil {
		return s
	}
	own := *s.tokens
	own.list = slices.Clone(own.list)
	s.tokens = &own
	for i := range s.list {
		k := &s.list[i]
		if k.kind != word {
			continue
		}
		if strings.ContainsRune(k.raw, 'à') && k.s == "as" { // às 11: to eleven; as 11: eleven
			k.s = "to"
		} else if w, ok := instead[l[0]][k.s]; ok {
			k.s = w
		}
	}
	return s
}
