package sheet_test

import (
	"html"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// hardest is the highest school grade that the text of a sheet may ask for.
const hardest = 8.0

// grade is the Flesch-Kincaid grade of a text (Kincaid, Fishburne, Rogers and Chissom 1975,
// Derivation of new readability formulas for Navy enlisted personnel, Research Branch Report 8-75):
// 0.39 words per sentence + 11.8 syllables per word - 15.59. A sentence ends at a full stop, a
// question or an exclamation mark. Each digit of a figure counts as a syllable.
func grade(said string) float64 {
	sentences, words, syllables := 0.0, 0.0, 0.0
	for _, sentence := range regexp.MustCompile(`[.?!](\s+|$)`).Split(said, -1) {
		found := wordPattern.FindAllString(sentence, -1)
		if len(found) == 0 {
			continue
		}
		sentences++
		for _, w := range found {
			words++
			syllables += float64(syllablesOf(w))
		}
	}
	return 0.39*words/sentences + 11.8*syllables/words - 15.59
}

var wordPattern = regexp.MustCompile(`[A-Za-z][A-Za-z'’]*|\d[\d.,]*`)

var vowels = regexp.MustCompile(`[aeiouy]+`)

// syllablesOf counts the groups of vowels of a word, less a silent e, es or ed at its end. It knows no
// dictionary: it counts one too few where two vowels part (area, dual), and one too many here and
// there inside a word (sometimes). An error of one syllable in a hundred words moves the grade by a
// tenth.
func syllablesOf(word string) int {
	word = strings.ToLower(word)
	if digits := regexp.MustCompile(`\d`).FindAllString(word, -1); len(digits) > 0 {
		return len(digits)
	}
	count := len(vowels.FindAllString(word, -1))
	silent := regexp.MustCompile(`[^aeiouyl]es?$|[^aeiouytd]ed$`).MatchString(word) &&
		!regexp.MustCompile(`(s|x|z|ch|sh|c|g)es$|[^aeiouy]res?$`).MatchString(word)
	if silent {
		count--
	}
	return max(1, count)
}

func TestSyllablesAreCounted(t *testing.T) {
	t.Parallel()
	for word, want := range map[string]int{
		"spray": 1, "drone": 1, "nozzle": 2, "needed": 2, "sprayed": 1, "pressure": 2, "inversion": 3, "authorization": 5,
		"the": 1, "places": 2, "droplets": 2, "acres": 2, "certificate": 4, "25.4": 3, "wind": 1, "neighbor": 2, "agricultural": 5,
	} {
		assert.InDelta(t, want, syllablesOf(word), 0, word)
	}
	// The worked arithmetic of the formula: 6 words, 1 sentence, 6 syllables.
	assert.InDelta(t, 0.39*6+11.8*1-15.59, grade("The cat sat on the mat."), 1e-9)
}

var (
	steps    = regexp.MustCompile(`(?s)<h2 id="first">.*?</section>`)
	listItem = regexp.MustCompile(`(?s)<li[^>]*>(.*?)</li>`)
	titled   = regexp.MustCompile(`(?s)<b>.*?</b>`)
	cited    = regexp.MustCompile(`\s*\([^()]*(\([^()]*\)[^()]*)*\d[^()]*(\([^()]*\)[^()]*)*\)`)
)

// The headline, the findings and what is to be done first ask for no more than 8 years of school,
// taken together on each sheet. The legal titles of authorizations and the citations in brackets are
// left out: they are names, and cannot be put in other words.
func TestSheetsReadEasily(t *testing.T) {
	t.Parallel()
	eachSample(t, func(t *testing.T, p printed) {
		said := []string{p.in.Answer.Headline}
		for _, f := range p.in.Answer.Findings {
			message := f.Message
			if strings.HasPrefix(f.Code, "permit_") {
				if _, after, ok := strings.Cut(message, ": "); ok {
					message = after
				}
				message = cited.ReplaceAllString(message, "")
			}
			said = append(said, message)
		}
		first := steps.FindString(p.page)
		require.NotEmpty(t, first)
		for _, item := range listItem.FindAllStringSubmatch(first, -1) {
			if strings.Contains(first, `class="papers"`) {
				item[1] = titled.ReplaceAllString(item[1], "")
			}
			said = append(said, cited.ReplaceAllString(text(html.UnescapeString(item[1])), ""))
		}
		for i, s := range said {
			said[i] = strings.TrimRight(strings.TrimSpace(s), ". ") + "."
		}
		got := grade(strings.Join(said, " "))
		t.Logf("grade %.1f", got)
		assert.LessOrEqual(t, got, hardest)
	})
}
