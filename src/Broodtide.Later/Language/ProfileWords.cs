using Broodtide.Phone.Parts;
using Broodtide.Workbench.Species;

namespace Broodtide.Phone.Language;

/// <summary>Numbers of a species profile in words.</summary>
internal sealed class ProfileWords(Words words, Formats formats)
{
    /// <summary>What a number of this provenance stands on.</summary>
    public static Firm FirmOf(Provenance provenance) =>
        provenance switch
        {
            Provenance.Measured => Firm.Published,
            Provenance.Borrowed => Firm.Borrowed,
            _ => Firm.Practice,
        };

    /// <summary>A sentence of the profile, its unit codes as people write them.</summary>
    public static string Plainly(string text) =>
        text.Replace(" Cel", Formats.ThinSpace + "°C", StringComparison.Ordinal);

    /// <summary>What a number of the profile means.</summary>
    public string Meaning(ProfileQuantity quantity) => Said(quantity.Code, quantity.Meaning);

    /// <summary>What a fact of the profile is about.</summary>
    public string Meaning(ProfileFact fact) => Said(fact.Code, fact.Meaning);

    /// <summary>What holds; an answer that differs from that of the reference species has words of its own.</summary>
    public string Holds(ProfileFact fact)
    {
        var usual = SpeciesProfiles.Reference.Fact(fact.Code)?.Is;
        return Said(
            string.Equals(usual, fact.Is, StringComparison.Ordinal)
                ? fact.Code + ".is"
                : $"{fact.Code}.is.{fact.Is}",
            fact.Is.Replace('-', ' ')
        );
    }

    /// <summary>A note of the profile.</summary>
    public string Note(string code, string note) =>
        IsOfReference(code, note) ? Said(code + ".note", note) : Plainly(note);

    /// <summary>The language of a note: the profile is written in English, and not all of it is put into others.</summary>
    public string? NoteLanguage(string code, string note) =>
        words.Language == "en" || (words.Has($"profile.{code}.note") && IsOfReference(code, note))
            ? null
            : "en";

    // Notes are put into other languages for the reference species alone.
    private static bool IsOfReference(string code, string note) =>
        string.Equals(
            SpeciesProfiles.Reference.Find(code)?.Note ?? SpeciesProfiles.Reference.Fact(code)?.Note,
            note,
            StringComparison.Ordinal
        );

    private string Said(string code, string written) =>
        Plainly(words.Has("profile." + code) ? words["profile." + code] : written);

    /// <summary>The name of a unit.</summary>
    public string UnitOf(ProfileUnit unit) => words["species.unit." + unit.Code];

    /// <summary>A number with its bounds and its unit.</summary>
    public string Told(ProfileAmount amount, ProfileUnit unit)
    {
        var told = (amount.Low, amount.Value, amount.High) switch
        {
            ({ } low, { } value, { } high) => $"{Plain(value)} ({Plain(low)}–{Plain(high)})",
            ({ } low, null, { } high) => $"{Plain(low)}–{Plain(high)}",
            (null, { } value, { } high) => words["species.upTo", Plain(value), Plain(high)],
            (null, { } value, null) => Plain(value),
            ({ } low, null, null) => words["species.atLeast", Plain(low)],
            (null, null, { } high) => words["species.atMost", Plain(high)],
            ({ } low, { } value, null) => words["species.from", Plain(value), Plain(low)],
            _ => "–",
        };
        return told
            + (unit.Code != "1" && UnitOf(unit) is { Length: > 0 } name ? Formats.ThinSpace + name : "");
    }

    /// <summary>Small numbers with three decimals at most, others with one.</summary>
    public string Plain(double value) => formats.Plain(value, Math.Abs(value) < 10 ? 3 : 1);
}
