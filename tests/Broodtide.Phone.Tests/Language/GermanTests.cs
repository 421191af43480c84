using Broodtide.Phone.Browser;
using Broodtide.Phone.Language;
using Broodtide.Phone.Pictures;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Phone.Tests.Language;

/// <summary>Numbers and days as they are read in German.</summary>
public sealed class GermanTests
{
    private static readonly Words German = Read();

    [Fact]
    public void Plurals_follow_their_number()
    {
        Assert.Equal("1 Eintrag wartet", German["waiting.count", 1]);
        Assert.Equal("3 Einträge warten", German["waiting.count", 3]);
    }

    [Theory]
    [InlineData(1, "erste Probe")]
    [InlineData(12, "zwölfte Probe")]
    [InlineData(21, "21. Probe")]
    public void Ordinals_are_words_up_to_twelve_and_then_a_number_with_a_point(int place, string text) =>
        Assert.Equal(text, German["count.which", Formats(German).Ordinal(place)]);

    [Theory]
    [InlineData(12, "twelfth sample")]
    [InlineData(13, "13th sample")]
    [InlineData(21, "21st sample")]
    [InlineData(22, "22nd sample")]
    [InlineData(23, "23rd sample")]
    [InlineData(111, "111th sample")]
    public void English_ordinals_end_as_they_are_spoken(int place, string text)
    {
        var english = Words.English();
        Assert.Equal(text, english["count.which", Formats(english).Ordinal(place)]);
    }

    [Fact]
    public void A_keeper_who_chose_nothing_reads_a_decimal_comma()
    {
        var preferences = new Preferences();
        preferences.Follow(German, name => null);

        Assert.Equal(DecimalSign.Comma, preferences.DecimalSign);
        Assert.Equal(
            "33,6 (33,3–33,9)",
            new Formats(preferences, German, new PhoneClock()).Sentence(
                Interval.FromPoints(33.31, 33.62, 33.93)
            )
        );
    }

    [Fact]
    public void What_was_chosen_holds_in_every_language()
    {
        var preferences = new Preferences();
        preferences.Follow(German, name => name == "decimal" ? "point" : null);

        Assert.Equal(DecimalSign.Point, preferences.DecimalSign);
    }

    [Fact]
    public void Days_have_their_point_and_months_their_names()
    {
        var days = new PictureDays(German);

        Assert.Equal("20. Mai", days.Date(new LocalDate(2026, 5, 20)));
        Assert.Equal("Mi, 20. Mai", days.WithWeekday(new LocalDate(2026, 5, 20)));
        Assert.Equal("20.–23. Mai", days.Range(new LocalDate(2026, 5, 20), new LocalDate(2026, 5, 23)));
        Assert.Equal("30. Mai–2. Juni", days.Range(new LocalDate(2026, 5, 30), new LocalDate(2026, 6, 2)));
        Assert.Equal("3. Oktober", days.Long(new LocalDate(2026, 10, 3)));
    }

    [Fact]
    public void What_German_does_not_say_is_said_in_English()
    {
        using var file = new MemoryStream("""{ "due.title": "Fällig" }"""u8.ToArray());
        var some = Words.English().In("de", file);

        Assert.Equal("Fällig", some["due.title"]);
        Assert.Equal("Journal", some["journal.title"]);
        Assert.Equal("de", some.Language);
    }

    [Theory]
    [InlineData("de", "de")]
    [InlineData("de-AT", "de")]
    [InlineData("DE-ch", "de")]
    [InlineData("en-GB", "en")]
    [InlineData("den", "en")]
    [InlineData("fr", "en")]
    [InlineData("", "en")]
    public void A_phone_is_spoken_to_in_its_own_language_where_there_is_one(string phoneSpeaks, string code)
    {
        Assert.Equal(code, Tongues.Code(Tongues.Meant(Tongue.AsPhone, phoneSpeaks)));
        Assert.Equal(Tongue.De, Tongues.Meant(Tongue.De, phoneSpeaks));
        Assert.Equal(Tongue.En, Tongues.Meant(Tongue.En, phoneSpeaks));
    }

    private static Formats Formats(Words words) => new(new Preferences(), words, new PhoneClock());

    private static Words Read()
    {
        using var file = LanguageFiles.OpenGerman();
        return Words.English().In("de", file);
    }
}
