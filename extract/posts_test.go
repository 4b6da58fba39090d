package extract_test

import (
	"testing"

	"evidencevault/extract/paper"
)

// TestPostHeldLast: a letter of employment tells a career, and the post held last counts,
// however the sentence says that somebody was given it.
func TestPostHeldLast(t *testing.T) {
	title := askedFor(paper.FieldTitle)
	checkAsked(t, []asked{
		title("promoted twice", "Brandlow Voss Consulting Engineers\n# CONFIRMATION OF SERVICE\nKindly note that Ms Orla Fennimore joined this practice as a junior surveyor on 1 February 2016. With effect from 1 July 2019 she was promoted to Land Surveyor, and since 1 March 2023 she has been our Senior Land Surveyor, based at the Quelm office.\nHer last working day with us was 29 May 2026.\nYours faithfully\nH Voss", "Senior Land Surveyor"),
		title("as, behind the promotion", "Marrow Marine Works Ltd\n# LETTER OF SERVICE\nIvor Pennyfeather was employed by us from 4 February 2019 to 30 March 2026. He came as a rigger's mate, was promoted to Class II Rigger on 1 June 2020, and from 1 October 2022 he ran the inshore team for us as Rigging Supervisor.", "Rigging Supervisor"),
		title("appointed", "Marrow Marine Works Ltd\n# LETTER OF EMPLOYMENT\nThis confirms that Ivor Pennyfeather has been employed by us since 4 May 2015. He was first employed as a stores clerk and was appointed Stores Manager on 1 June 2021.", "Stores Manager"),
		title("die Stelle übertragen", "Hallberger Bauprüfung GmbH\n# Zwischenzeugnis\nFrau Ulrike Sandnagel, geboren am 2. September 1984, ist seit dem 15. Mai 2017 in unserem Hause beschäftigt, zunächst als Laborantin. Zum 1. Januar 2023 wurde ihr die Stelle der Gruppenleiterin Baustoffprüfung übertragen, die sie unverändert innehat.\nRingau, 30. April 2026", "Gruppenleiterin Baustoffprüfung"),
		title("zum … ernannt", "Hallberger Bauprüfung GmbH\n# Arbeitszeugnis\nHerr Jost Wendel war vom 1. März 2012 bis zum 31. Dezember 2025 bei uns beschäftigt, anfangs als Messgehilfe. Am 1. Mai 2018 wurde er zum Prüfstellenleiter ernannt.\nRingau, 31. Dezember 2025", "Prüfstellenleiter"),
		title("en qualité d'", "CABINET VANNELLE\n# CERTIFICAT DE TRAVAIL\nJe soussignée certifie que Madame Ysaline Trébuchon a été employée du 2 novembre 2020 au 31 août 2026, d'abord comme aide de laboratoire, puis, à compter du 1er octobre 2022, en qualité d'assistante technique qualifiée.", "assistante technique qualifiée"),
		title("promue au poste de", "CABINET VANNELLE\n# CERTIFICAT DE TRAVAIL\nMadame Ysaline Trébuchon a été employée du 2 novembre 2020 au 31 août 2026. Engagée comme secrétaire, elle a été promue au poste de Responsable administrative le 1er mai 2023.", "Responsable administrative"),
		title("ascendida a", "Talleres Quelmo S.A.\n# CERTIFICADO LABORAL\nCertificamos que doña Herminia Zavaleta Poot trabaja en esta empresa desde el 3 de abril de 2016. Ingresó como auxiliar de taller y fue ascendida a Jefa de Taller el 1 de junio de 2021.", "Jefa de Taller"),
		title("bevorderd tot", "Leerhuis Oostveld B.V.\n# WERKGEVERSVERKLARING\nHierbij verklaren wij dat mevrouw Sanne Brouwhuis sinds 1 mei 2014 bij ons in dienst is. Zij begon als medewerker en werd op 1 september 2020 bevorderd tot Hoofd Planning.", "Hoofd Planning"),
		title("war sie, hinter dem Tag", "Ofenbau Ringau GmbH\n# Arbeitszeugnis\nFrau Ulrike Sandnagel war vom 1. März 2014 bis zum 31. Mai 2026 bei uns beschäftigt. Sie begann als Keramikerin in der Formerei. Seit dem 1. Juli 2021 war sie Meisterin Glasurabteilung mit sechs Mitarbeitenden.\nRingau, 31. Mai 2026", "Meisterin Glasurabteilung"),
		title("she was, behind the day", "Marrow Marine Works Ltd\n# LETTER OF SERVICE\nMs Orla Fennimore was employed by us from 4 May 2015 to 29 May 2026. She started as a stores clerk, and from 1 June 2021 she was Head of Stores for both yards.", "Head of Stores"),
		title("elle était, à partir du", "CABINET VANNELLE\n# CERTIFICAT DE TRAVAIL\nMadame Ysaline Trébuchon a été employée du 2 novembre 2020 au 31 août 2026. Engagée comme secrétaire, elle était responsable administrative à partir du 1er mai 2023.", "responsable administrative"),
		title("was zij, vanaf", "Leerhuis Oostveld B.V.\n# WERKGEVERSVERKLARING\nMevrouw Sanne Brouwhuis was van 1 mei 2014 tot 31 mei 2026 bij ons in dienst. Zij begon als medewerker planning, en vanaf 1 september 2020 was zij hoofd planning.", "hoofd planning"),
		title("where somebody was is no post", "Marrow Marine Works Ltd\n# LETTER OF EMPLOYMENT\nIvor Pennyfeather has been employed by us as Crane Operator since 4 May 2015. From 1 June 2021 to 1 June 2022 he was based at our northern yard, and he was always punctual.", "Crane Operator"),
		title("the present post, without its day", "Marrow Marine Works Ltd\n# LETTER OF EMPLOYMENT\nIvor Pennyfeather joined us on 4 May 2015. He was taken on as a Stores Clerk and was promoted on 1 June 2021. His present role with us is Head of Stores, at 36 hours a week. He is in our service as of today.", "Head of Stores"),
		title("die letzte Funktion", "Ofenbau Ringau GmbH\n# Arbeitszeugnis\nFrau Ulrike Sandnagel war vom 1. März 2014 bis zum 31. Mai 2026 bei uns beschäftigt, anfangs als Keramikerin. Ihre letzte Funktion war die einer Meisterin Glasur.", "Meisterin Glasur"),
		title("son poste actuel", "CABINET VANNELLE\n# ATTESTATION D'EMPLOI\nMadame Ysaline Trébuchon est employée depuis le 2 novembre 2020. Engagée comme secrétaire, son poste actuel est celui de responsable administrative.", "responsable administrative"),
		title("su último cargo", "Talleres Quelmo S.A.\n# CERTIFICADO LABORAL\nDoña Herminia Zavaleta Poot trabajó en esta empresa desde el 3 de abril de 2016 hasta el 30 de mayo de 2026. Ingresó como auxiliar de taller. Su último cargo fue el de Jefa de Taller.", "Jefa de Taller"),
		title("haar huidige functie", "Leerhuis Oostveld B.V.\n# WERKGEVERSVERKLARING\nMevrouw Sanne Brouwhuis is sinds 1 mei 2014 bij ons in dienst. Zij begon als medewerker. Haar huidige functie is Hoofd Planning.", "Hoofd Planning"),
		title("a post with another firm", "Marrow Marine Works Ltd\n# LETTER OF EMPLOYMENT\nIvor Pennyfeather has been employed by us as Crane Operator since 4 May 2015. His previous position was that of a deckhand elsewhere.", "Crane Operator"),
		title("a letter with one post", "Marrow Marine Works Ltd\n# LETTER OF EMPLOYMENT\nIvor Pennyfeather has been employed by us as Crane Operator since 4 May 2015. He has been our colleague for ten years and was made welcome everywhere.", "Crane Operator"),
	})
}

// TestNumberedForm: the numbers of the boxes of a form are no labels and no values.
func TestNumberedForm(t *testing.T) {
	checkAsked(t, []asked{
		{"Dutch", "VERKLARING VAN DE WERKGEVER\n1   Gegevens werkgever   Laboratorium Oostveld B.V.\n2   Naam werknemer   mevrouw Sanne Brouwhuis\n3   Geboren   11-04-1985\n4   In dienst sedert   15-08-2018\n5   Functie   hoofdanalist water\n6   Opmerkingen   geen", map[paper.Field]string{paper.FieldTitle: "hoofdanalist water"}},
		{"English", "VERIFICATION OF EMPLOYMENT\n1   Employer   Marrow Marine Works Ltd\n2   Name of employee   Ivor Pennyfeather\n3   Position   Crane Operator\n4   Remarks   none", map[paper.Field]string{paper.FieldTitle: "Crane Operator"}},
		{"a list of courses keeps its numbers apart", "TRAINING RECORD\nName: Ivor Pennyfeather\nNo.   Date   Course   Hours\n1   2 May 2025   Slinging Signals   4\n2   9 June 2025   Rope Care   3\n3   1 July 2025   Hoist Checks   2", map[paper.Field]string{paper.FieldKind: "transcript"}},
	})
}
