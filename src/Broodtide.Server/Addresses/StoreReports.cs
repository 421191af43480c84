using Broodtide.Server.Words;
using Broodtide.Storage.Households;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Server.Addresses;

/// <summary>What one phone's store last said about itself.</summary>
/// <param name="Phone">How people know it.</param>
/// <param name="Waiting">How many entries waited there; none where it never said.</param>
/// <param name="At">When it said so.</param>
internal sealed record StoreReport(string Phone, int? Waiting, Instant? At)
{
    /// <summary>Whether it may still hold what the server lacks.</summary>
    public bool MayHold => Waiting is not 0;
}

/// <summary>What all stores of the house's people last said.</summary>
internal static class StoreReports
{
    // As the phone shows them in its settings: enough to tell two apart.
    private const int LastFigures = 8;

    /// <summary>Every store that somebody has written with, whether it ever said how many entries wait or not.</summary>
    public static IReadOnlyList<StoreReport> Of(HouseStore house)
    {
        var sharing = new HouseSharing(house);
        var people = new HousePeople(house);
        var said = sharing.Reports().ToDictionary(report => report.Replica);
        return
        [
            .. sharing
                .Bindings()
                .OrderBy(binding => binding.Key.Value)
                .Select(binding =>
                {
                    var report = said.GetValueOrDefault(binding.Key);
                    return new StoreReport(
                        Said.Sentence(
                            "phone-is",
                            new Argument("person", people.Find(binding.Value)?.Name ?? "?"),
                            new Argument("store", binding.Key.Value.ToString("N")[^LastFigures..])
                        ),
                        report?.Waiting,
                        report?.At
                    );
                }),
        ];
    }
}
