using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Units;

namespace Broodtide.Workbench.Population;

/// <summary>What counts say by themselves, kept as long as neither the words nor the water they were taken from change.</summary>
internal sealed class CountsMeant
{
    private readonly Dictionary<EntryId, (CountMade Count, Volume? Water, CountMeaning Meaning)> _meant = [];

    /// <summary>What a count says, see <see cref="CountMeanings.Of"/>.</summary>
    /// <param name="occurrence">An occurrence whose fact is a <see cref="CountMade"/>.</param>
    /// <param name="water">Water in the vessel then; none if nobody knows.</param>
    public CountMeaning Of(Occurrence occurrence, Volume? water)
    {
        var count = (CountMade)occurrence.Fact;
        if (
            _meant.TryGetValue(occurrence.Id, out var kept)
            && ReferenceEquals(kept.Count, count)
            && kept.Water == water
        )
        {
            return kept.Meaning;
        }

        var meaning = CountMeanings.Of(count, water);
        _meant[occurrence.Id] = (count, water, meaning);
        return meaning;
    }
}
