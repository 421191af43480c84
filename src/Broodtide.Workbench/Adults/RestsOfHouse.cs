using Broodtide.Domain;
using Broodtide.Science.Development.Females;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Adults;

/// <summary>Rests between broods that were seen in a house, and what is believed of the next; worked out once for a species.</summary>
internal sealed class RestsOfHouse(House house, HouseProfiles profiles, Instant now)
{
    private readonly Dictionary<string, Learned?> _learned = new(StringComparer.Ordinal);

    /// <summary>What is believed of a species; none where its profile says nothing of the rest.</summary>
    public Learned? Of(SpeciesProfile profile)
    {
        if (!_learned.TryGetValue(profile.Code, out var learned))
        {
            _learned[profile.Code] = learned = Learn(profile);
        }

        return learned;
    }

    private Learned? Learn(SpeciesProfile profile)
    {
        if (
            profile.Find(AdultQuantityCodes.RestAfterHatch)
                is not { Low: > 0 and var low, Value: { } value, High: { } high }
            || low >= value
            || value >= high
        )
        {
            return null;
        }

        var seen = new List<(AnimalId Female, SeenRest Seen)>();
        foreach (
            var female in house.Animals.Where(other =>
                string.Equals(profiles.Of(other.Species).Code, profile.Code, StringComparison.Ordinal)
            )
        )
        {
            for (var i = 1; i < female.Broods.Count; i++)
            {
                var (before, next) = (house.Brood(female.Broods[i - 1]), house.Brood(female.Broods[i]));
                if (
                    before.FirstLarvae is { } hatched
                    && MatingMoult.Of(house, next) is { } laid
                    && laid.To <= now
                    && laid.To > hatched.Earliest
                )
                {
                    seen.Add(
                        (
                            female.Id,
                            new(
                                ((laid.From ?? hatched.Latest) - hatched.Latest).TotalDays,
                                (laid.To - hatched.Earliest).TotalDays
                            )
                        )
                    );
                }
            }
        }

        return new(
            RestBelief.From(Interval.FromPoints(low, value, high), [.. seen.Select(one => one.Seen)]),
            seen
        );
    }

    /// <summary>What is believed, and from which rests.</summary>
    public sealed record Learned(RestBelief Belief, IReadOnlyList<(AnimalId Female, SeenRest Seen)> From);
}
