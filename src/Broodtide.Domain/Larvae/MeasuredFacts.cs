using System.Globalization;
using System.Text.Json.Serialization;
using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Domain.Larvae;

/// <summary>What the scale of a length rests on.</summary>
[JsonConverter(typeof(Words<ScaleBy>))]
public enum ScaleBy
{
    /// <summary>The ticks of a ruler or stage micrometer.</summary>
    Ruler,

    /// <summary>Two marks a known distance apart.</summary>
    Taps,

    /// <summary>A number that the keeper said.</summary>
    Number,
}

/// <summary>A measured value, in the unit of its list; bounds where it was said how sure it is.</summary>
/// <param name="Middle">What was measured.</param>
/// <param name="Low">The 5 % point.</param>
/// <param name="High">The 95 % point.</param>
public sealed record MeasuredValue(double Middle, double? Low = null, double? High = null)
{
    /// <summary>With bounds.</summary>
    public static MeasuredValue Of(Interval value) => new(value.Middle, value.Low, value.High);

    /// <summary>From text: 2410, or 2380..2410..2440 with its bounds; none where it is neither.</summary>
    public static MeasuredValue? Read(string text)
    {
        var parts = text.Split("..");
        var numbers = new double[parts.Length];
        for (var i = 0; i < parts.Length; i++)
        {
            if (
                !double.TryParse(
                    parts[i].Trim().Replace(',', '.'),
                    NumberStyles.AllowDecimalPoint,
                    CultureInfo.InvariantCulture,
                    out numbers[i]
                )
            )
            {
                return null;
            }
        }

        return numbers switch
        {
            [var middle] => new(middle),
            [var low, var middle, var high] => new(middle, low, high),
            _ => null,
        };
    }

    /// <summary>The text that <see cref="Read"/> reads.</summary>
    public override string ToString() =>
        Low is { } low && High is { } high
            ? string.Create(CultureInfo.InvariantCulture, $"{low:0.###}..{Middle:0.###}..{high:0.###}")
            : Middle.ToString("0.###", CultureInfo.InvariantCulture);

    internal bool IsInOrder => (Low ?? Middle) <= Middle && Middle <= (High ?? Middle);
}

/// <summary>Larvae were measured, mostly in pictures.</summary>
/// <param name="Vessel">Where they came from.</param>
/// <param name="Micrometres">Length of each along its axis, um.</param>
/// <param name="BeatsPerMinute">Heart rate of each.</param>
/// <param name="SwimmingPercent">Share that moved, percent of those seen.</param>
/// <param name="Cohort">The cohort, if known.</param>
/// <param name="Scale">What the scale of the lengths rests on.</param>
/// <param name="Picture">64 lower-case hex figures of SHA-256 over the picture, what is not the picture left out.</param>
public sealed record LarvaeMeasured(
    VesselId Vessel,
    IReadOnlyList<MeasuredValue>? Micrometres = null,
    IReadOnlyList<MeasuredValue>? BeatsPerMinute = null,
    IReadOnlyList<MeasuredValue>? SwimmingPercent = null,
    CohortId? Cohort = null,
    ScaleBy? Scale = null,
    string? Picture = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects()
    {
        yield return Subject.Of(Vessel);
        if (Cohort is { } cohort)
        {
            yield return Subject.Of(cohort);
        }
    }

    /// <inheritdoc/>
    public override IEnumerable<(string Name, IEnumerable<object?>? List)> Lists() =>
        [
            ("micrometres", Micrometres),
            ("beatsPerMinute", BeatsPerMinute),
            ("swimmingPercent", SwimmingPercent),
        ];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, double? Value, double Lowest, double Highest)> Plain() =>
        [
            .. Within("micrometres", Micrometres, 10, 100_000),
            .. Within("beatsPerMinute", BeatsPerMinute, 1, 2_000),
            .. Within("swimmingPercent", SwimmingPercent, 0, 100),
        ];

    /// <inheritdoc/>
    private protected override Remark? Amiss()
    {
        var all = Lists().SelectMany(list => (list.List ?? []).Cast<MeasuredValue>()).ToList();
        return all.Count == 0 ? new Remark("measured-nothing")
            : all.FirstOrDefault(value => !value.IsInOrder) is { } amiss
                ? new Remark("bounds-out-of-order", new Argument("typed", amiss.ToString()))
            : Picture is { } picture && !Keeping.PhotoAdded.IsHash(picture)
                ? new Remark("hash-unreadable", new("field", "picture"), new("typed", picture))
            : null;
    }

    private static IEnumerable<(string, double?, double, double)> Within(
        string name,
        IReadOnlyList<MeasuredValue>? values,
        double lowest,
        double highest
    ) =>
        (values ?? []).SelectMany(value =>
            new[]
            {
                ($"{name}.middle", (double?)value.Middle, lowest, highest),
                ($"{name}.low", value.Low, lowest, highest),
                ($"{name}.high", value.High, lowest, highest),
            }
        );
}
