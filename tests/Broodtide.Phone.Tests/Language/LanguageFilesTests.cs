using System.Text.RegularExpressions;
using Broodtide.Phone.Language;
using Broodtide.Workbench.Species;

namespace Broodtide.Phone.Tests.Language;

public sealed partial class LanguageFilesTests
{
    // What is the same in both languages: names, units, and texts that are all place and no word.
    private static readonly string[] SameBeginnings = ["u.", "amount.unit.", "scale.unit.", "species.unit."];

    private static readonly HashSet<string> Same = new(StringComparer.Ordinal)
    {
        "run.dossier",
        "brood.plan",
        "count.in",
        "count.line",
        "crossing.ready.pipette",
        "dossier.title",
        "field.name",
        "look.lengths.mm",
        "form.filter",
        "said.chamber",
        "is.tetraselmis",
        "is.tetraselmis-chui",
        "is.tetraselmis-suecica",
        "is.nannochloropsis",
        "is.isochrysis",
        "is.chlorella",
        "is.chaetoceros",
        "is.thalassiosira-weissflogii",
        "is.phaeodactylum",
        "is.f2",
        "is.fuchs-rosenthal",
        "is.sedgewick-rafter",
        "measured.Acidity",
        "month.1",
        "month.11",
        "month.2",
        "month.4",
        "month.8",
        "month.long.11",
        "month.long.4",
        "month.long.8",
        "month.long.9",
        "pace.above",
        "page.title",
        "remind.alarm.at",
        "remind.calendar",
        "remind.file.name",
        "review.spoken",
        "run.where.in",
        "said.sample",
        "said.stage",
        "said.vessel",
        "safety.q.Acidity",
        "safety.u.Nitrate",
        "safety.u.Nitrite",
        "safety.u.Oxygen",
        "safety.u.UnionisedAmmonia",
        "scale.[pH]",
        "sensors.limits.minutes",
        "settings.language.de",
        "settings.language.en",
        "sheet.blank.celsius",
        "sheet.blank.fahrenheit",
        "sheet.blank.in",
        "sheet.blank.ml",
        "sheet.paper.a4",
        "told.filter",
        "unit.of.[pH]",
        "vessel.read.as.mS",
        "water.minutes",
    };

    // Handed on as one word: do.top-up, done.top-up.
    private static readonly string[] HandedOn = ["do.", "done."];

    [Fact]
    public void Both_languages_say_the_same_codes()
    {
        Assert.Empty(LanguageFiles.English.Keys.Except(LanguageFiles.German.Keys));
        Assert.Empty(
            LanguageFiles
                .German.Keys.Where(code => !code.StartsWith("profile.", StringComparison.Ordinal))
                .Except(LanguageFiles.English.Keys)
        );
    }

    /// <summary>The profile itself is written in English; what its numbers mean is said in every other language.</summary>
    [Fact]
    public void Every_number_and_fact_of_a_profile_has_its_meaning_in_German_and_nothing_else_has()
    {
        string[] numbers =
        [
            .. SpeciesProfiles.All.SelectMany(profile => profile.Quantities).Select(it => it.Code),
        ];
        string[] facts = [.. SpeciesProfiles.All.SelectMany(profile => profile.Facts).Select(it => it.Code)];
        string[] answers =
        [
            .. SpeciesProfiles
                .All.SelectMany(profile => profile.Facts)
                .Select(fact =>
                    SpeciesProfiles.Reference.Fact(fact.Code)?.Is == fact.Is
                        ? fact.Code + ".is"
                        : $"{fact.Code}.is.{fact.Is}"
                ),
        ];
        string[] notes =
        [
            .. SpeciesProfiles
                .All.SelectMany(profile => profile.Facts)
                .Where(it => it.Note is not null)
                .Select(it => it.Code),
            .. SpeciesProfiles
                .All.SelectMany(profile => profile.Quantities)
                .Where(it => it.Note is not null)
                .Select(it => it.Code),
        ];
        var needed = numbers.Concat(facts).Concat(answers).Select(code => "profile." + code).ToHashSet();
        var said = LanguageFiles
            .German.Keys.Where(code => code.StartsWith("profile.", StringComparison.Ordinal))
            .ToHashSet();

        Assert.Empty(needed.Except(said));
        Assert.Empty(said.Except(needed).Except(notes.Select(code => $"profile.{code}.note")));
    }

    [Fact]
    public void A_text_has_the_same_places_and_the_same_marks_in_both_languages() =>
        Assert.Empty(
            LanguageFiles
                .English.Where(text =>
                    LanguageFiles.German.TryGetValue(text.Key, out var german)
                    && (
                        !Places(text.Value).SetEquals(Places(german))
                        || Marks(text.Value, '_') != Marks(german, '_')
                        || Marks(text.Value, '*') != Marks(german, '*')
                    )
                )
                .Select(text => text.Key)
        );

    [Fact]
    public void German_says_it_in_German() =>
        Assert.Empty(
            LanguageFiles
                .English.Where(text => LanguageFiles.German.GetValueOrDefault(text.Key) == text.Value)
                .Where(text => Letters().IsMatch(Place().Replace(text.Value, "")))
                .Select(text => text.Key)
                .Where(code => !SameBeginnings.Any(begin => code.StartsWith(begin, StringComparison.Ordinal)))
                .Except(Same)
        );

    [Fact]
    public void What_is_listed_as_the_same_is_the_same() =>
        Assert.All(Same, code => Assert.Equal(LanguageFiles.English[code], LanguageFiles.German[code]));

    [Fact]
    public void Every_text_can_be_said_in_German()
    {
        using var file = LanguageFiles.OpenGerman();
        var german = Words.English().In("de", file);
        Assert.All(german.Codes, code => Assert.NotEqual("", german[code, 1, 2, 3, 4, 5, 6]));
        Assert.All(german.Codes, code => Assert.NotEqual("", german[code, 2, 2, 2, 2, 2, 2]));
    }

    [Fact]
    public void German_quotation_marks_and_no_others_stand_in_German_texts() =>
        Assert.Empty(
            LanguageFiles
                .German.Where(text =>
                    text.Value.AsSpan().ContainsAny("\"”‘'")
                    || text.Value.Count(letter => letter == '„') != text.Value.Count(letter => letter == '“')
                )
                .Select(text => text.Key)
        );

    [Fact]
    public void No_text_is_one_that_nothing_says()
    {
        var (whole, beginnings) = LanguageFiles.Named();

        string[] unsaid =
        [
            .. LanguageFiles.English.Keys.Where(code =>
                !whole.Contains(code)
                && !beginnings.Concat(HandedOn).Any(begin => code.StartsWith(begin, StringComparison.Ordinal))
            ),
        ];
        Assert.Equal([], unsaid);
    }

    [Fact]
    public void What_stands_in_the_page_before_the_program_comes_is_said_in_every_language()
    {
        var page = File.ReadAllText(
            Path.Combine(Repository.Root(), "src", "Broodtide.Phone", "wwwroot", "index.html")
        );
        var languages = Enum.GetValues<Tongue>().Except([Tongue.AsPhone]).Select(Tongues.Code).ToList();
        Assert.All(
            languages,
            language =>
                Assert.Equal(
                    2,
                    page.Split($"<p lang=\"{language}\"").Length
                        + page.Split($"\" lang=\"{language}\"").Length
                        - 2
                )
        );
    }

    private static HashSet<string> Places(string text) =>
        [.. Place().Matches(text).Select(place => place.Groups["name"].Value)];

    private static int Marks(string text, char mark) => text.Count(letter => letter == mark);

    [GeneratedRegex(@"\{(?<name>[^}:]+)(:[^}]*)?\}", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Place();

    [GeneratedRegex(@"\p{L}{2}", RegexOptions.None, 1000)]
    private static partial Regex Letters();
}
