using Broodtide.Science.Development;
using Broodtide.Units;

namespace Broodtide.Scoring;

/// <summary>
/// Reads events.csv: t_days, kind, value. The time is in days from any origin, fractions allowed. A temperature has
/// its degrees Celsius in value; the other kinds need no value, and 0, no or false there means the opposite was seen.
/// A last_seen_empty without a time says that it is unknown.
/// </summary>
public static class EventsFile
{
    private const string Kinds =
        "last_seen_empty, berried, temperature, eyed, not_eyed, pale, saddle, still_carried, dropped";

    /// <summary>Error of a reading, degC: a division or two of an aquarium thermometer; an assumption.</summary>
    private const double ReadingErrorCelsius = 0.3;

    /// <exception cref="FileTroubleException">The file is missing or a line cannot be read.</exception>
    public static BroodEvidence Read(string file)
    {
        var table = Table.Read(file, "t_days", "kind", "value");
        List<BroodFact> facts = [];
        List<FollowedTemperature> temperatures = [];
        var ageUnknown = false;
        foreach (var row in table.Rows)
        {
            var kind = table.Text(row, 1).ToLowerInvariant();
            var value = table.Text(row, 2);
            if (kind == "last_seen_empty" && IsNothing(table.Text(row, 0)))
            {
                ageUnknown = true;
                continue;
            }

            var day =
                Table.Number(table.Text(row, 0)) is { } number && Math.Abs(number) <= 50_000
                    ? number
                    : throw table.Trouble(
                        row,
                        $"t_days is '{table.Text(row, 0)}'; allowed is a number of days from -50000 to 50000."
                    );
            if (kind == "temperature")
            {
                var celsius = Table.Number(value) is { } reading and >= -5 and <= 50
                    ? reading
                    : throw table.Trouble(
                        row,
                        $"temperature is '{value}'; allowed is a number from -5 to 50, degrees Celsius."
                    );
                temperatures.Add(
                    new(
                        day,
                        Temperature.FromCelsius(celsius),
                        TemperatureDifference.FromCelsius(ReadingErrorCelsius)
                    )
                );
                continue;
            }

            facts.Add(
                Fact(kind, day, IsDenied(value))
                    ?? throw table.Trouble(row, $"kind is '{kind}'; allowed is one of {Kinds}.")
            );
        }

        if (!facts.Any(fact => fact is not BroodFact.SeenEmpty))
        {
            throw new FileTroubleException(
                $"{file}: no line shows eggs; needed is at least one berried or a later sign."
            );
        }

        return new()
        {
            Facts = SameLook(facts),
            Temperatures = temperatures,
            Assumption = ReferencePriors.UncontrolledRoom,
            AgeUnknown = ageUnknown,
        };
    }

    private static BroodFact? Fact(string kind, double day, bool denied) =>
        kind switch
        {
            "last_seen_empty" => denied ? new BroodFact.SeenBerried(day) : new BroodFact.SeenEmpty(day),
            "berried" => denied ? new BroodFact.SeenEmpty(day) : new BroodFact.SeenBerried(day),
            "eyed" => new BroodFact.EggsLookedAt(day, !denied, null),
            "not_eyed" => new BroodFact.EggsLookedAt(day, denied, null),
            "pale" => new BroodFact.EggsLookedAt(day, null, !denied),
            // No saddle seen says little, but the eggs were there.
            "saddle" => denied ? new BroodFact.StillCarried(day) : new BroodFact.SaddleSeen(day),
            "still_carried" => denied ? new BroodFact.SeenEmpty(day) : new BroodFact.StillCarried(day),
            "dropped" => denied ? new BroodFact.StillCarried(day) : new BroodFact.Dropped(day),
            _ => null,
        };

    /// <summary>Eyes and colour noted at the same moment are one look.</summary>
    private static BroodFact[] SameLook(List<BroodFact> facts)
    {
        var looks = facts.OfType<BroodFact.EggsLookedAt>().ToArray();
        var joined = looks
            .Where(look => look.Eyed.HasValue)
            .Select(look =>
                look with
                {
                    Pale = looks.FirstOrDefault(other => other.Day == look.Day && other.Pale.HasValue)?.Pale,
                }
            )
            .ToArray();
        var alone = looks.Where(look =>
            look.Pale.HasValue && !Array.Exists(joined, other => other.Day == look.Day)
        );
        return [.. facts.Where(fact => fact is not BroodFact.EggsLookedAt), .. joined, .. alone];
    }

    private static bool IsNothing(string text) =>
        text.Length == 0
        || text.Equals("nan", StringComparison.OrdinalIgnoreCase)
        || text.Equals("na", StringComparison.OrdinalIgnoreCase)
        || text.Equals("unknown", StringComparison.OrdinalIgnoreCase);

    private static bool IsDenied(string value) =>
        Table.Number(value) == 0
        || value.Equals("no", StringComparison.OrdinalIgnoreCase)
        || value.Equals("false", StringComparison.OrdinalIgnoreCase);
}
