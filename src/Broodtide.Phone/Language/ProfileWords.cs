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
            + (UnitOf(unit) is { Length: > 0 } name && name != "share" ? Formats.ThinSpace + name : "");
    }

    /// <summary>Small numbers with three decimals at most, others with one.</summary>
    public string Plain(double value) => formats.Plain(value, Math.Abs(value) < 10 ? 3 : 1);
}
