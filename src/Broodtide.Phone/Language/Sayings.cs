using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Phone.Sensing;
using Broodtide.Units;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Phone.Language;

/// <summary>
/// Remarks of the core as sentences. A sentence names the arguments it wants; how a number is written follows from
/// the end of its name, which is its unit.
/// </summary>
internal sealed class Sayings(Words words, Formats formats, Naming naming, PhoneZone zone)
{
    // Chances, whose names have no unit at the end.
    private static readonly HashSet<string> Shares = new(StringComparer.Ordinal)
    {
        "larvaeFirst",
        "larvaeFirstADayLater",
        "harmInBox",
        "chance",
        "chanceTonight",
        "chanceEarly",
        "chanceLate",
        "outAlready",
        "settledShare",
        "settledShareNeeded",
        "chanceOfWrongLook",
    };

    // Instants that are worked out: a minute of them would say more than is known.
    private static readonly HashSet<string> Foretold = new(StringComparer.Ordinal)
    {
        "earliest",
        "middle",
        "latest",
        "lethalAt",
        "hatchFrom",
        "until",
        "halfBy",
        "windowFrom",
        "windowTo",
    };

    /// <summary>A remark as a sentence, by the words of <c>say.</c> and its code.</summary>
    public IReadOnlyList<WordPart> Of(Remark remark, House house, string? variant = null)
    {
        var code = "say." + remark.Code;
        return words.Named(
            variant is not null && words.Has($"{code}.{variant}") ? $"{code}.{variant}" : code,
            name => Value(name, remark[name], house)
        );
    }

    /// <summary>A text whose places are filled from several remarks and from what is given by name.</summary>
    public IReadOnlyList<WordPart> Filled(
        string code,
        House house,
        IEnumerable<Remark> from,
        params IReadOnlyList<(string Name, string Value)> given
    ) =>
        words.Named(
            code,
            name =>
            {
                foreach (var (known, value) in given)
                {
                    if (known == name)
                    {
                        return value;
                    }
                }

                return Value(
                    name,
                    from.Select(remark => remark[name]).FirstOrDefault(value => value is not null),
                    house
                );
            }
        );

    /// <summary>Without marks for slant or weight.</summary>
    public static string Plain(IEnumerable<WordPart> parts) => string.Concat(parts.Select(part => part.Text));

    private string Value(string name, object? value, House house) =>
        value switch
        {
            null => "?",
            double number => Number(name, number),
            int count => formats.Number(count, 0),
            long count => formats.Number(count, 0),
            Instant instant when Foretold.Contains(name) => formats.About(instant),
            Instant instant => zone.IsToday(instant)
                ? formats.Time(zone.Here(instant).TimeOfDay)
                : formats.Moment(instant),
            LocalDate date => formats.Day(date),
            VesselId id => naming.Of(house, id),
            BroodId id => naming.Of(house, id),
            AnimalId id => naming.Of(house, id),
            InstrumentId id => naming.Of(house, id),
            RunId id => naming.Of(house, Subject.Of(id)),
            string unit when name is "unit" => SensorWords.Of(words, unit),
            LimitedQuantity quantity => words[$"review.q.{quantity}"],
            _ => value.ToString() ?? "",
        };

    private string Number(string name, double value) =>
        !double.IsFinite(value) ? "?"
        : Shares.Contains(name) ? formats.Share(Probability.FromFraction(Math.Clamp(value, 0, 1)))
        : name.EndsWith("Litres", StringComparison.Ordinal)
            ? formats.Amount(Pourable(Volume.FromLitres(Math.Max(0, value))))
        : name.EndsWith("Millilitres", StringComparison.Ordinal)
            ? formats.Amount(Pourable(Volume.FromMillilitres(Math.Max(0, value))))
        : name.EndsWith("Grams", StringComparison.Ordinal)
            ? formats.Amount(Mass.FromGrams(Math.Max(0, value)))
        : name is "celsius" || name.EndsWith("Celsius", StringComparison.Ordinal)
            ? formats.Reading(Temperature.FromCelsius(Math.Max(-273.15, value)))
        : name.EndsWith("Ppt", StringComparison.Ordinal) ? formats.Plain(value, 1)
        : name.EndsWith("PerMillilitre", StringComparison.Ordinal) ? formats.Number(value, 0)
        : name.EndsWith("PerLitre", StringComparison.Ordinal) ? formats.Plain(value, 2)
        : name is "correlation" || name.EndsWith('P') ? formats.ThreeFigures(value)
        : name.StartsWith("hours", StringComparison.Ordinal) ? formats.Plain(value, 0)
        : name.StartsWith("weeks", StringComparison.Ordinal) ? formats.Plain(value, 1)
        : Math.Abs(value) >= 10 ? formats.Plain(value, 0)
        : formats.Plain(value, 1);

    /// <summary>A volume as a kitchen jug measures it: what is told is then what is poured and written.</summary>
    public static Volume Pourable(Volume volume) =>
        volume.Millilitres switch
        {
            >= 1000 => Volume.FromMillilitres(50 * Math.Round(volume.Millilitres / 50)),
            >= 100 => Volume.FromMillilitres(10 * Math.Round(volume.Millilitres / 10)),
            >= 20 => Volume.FromMillilitres(5 * Math.Round(volume.Millilitres / 5)),
            _ => Volume.FromMillilitres(Math.Round(volume.Millilitres)),
        };
}

/// <summary>Instants in the keeper's zone, told apart from today.</summary>
internal sealed class PhoneZone(Browser.PhoneClock clock)
{
    public LocalDate Today => clock.Here.Date;

    public LocalDateTime Here(Instant instant) => instant.InZone(clock.Zone).LocalDateTime;

    public bool IsToday(Instant instant) => Here(instant).Date == Today;

    /// <summary>The day on whose evening the night of an instant begins: nights run from noon to noon.</summary>
    public LocalDate EveningOf(Instant instant)
    {
        var here = Here(instant);
        return here.Hour < 12 ? here.Date.PlusDays(-1) : here.Date;
    }
}
