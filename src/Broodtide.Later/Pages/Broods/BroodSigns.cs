using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Phone.Language;
using Broodtide.Phone.Pages.Runs;

namespace Broodtide.Phone.Pages.Broods;

/// <summary>What was seen of a brood, in words, newest first.</summary>
internal static class BroodSigns
{
    public static IReadOnlyList<WrittenLine> Of(House house, Brood brood, Words words, Naming naming)
    {
        var lines = new List<WrittenLine>();
        foreach (var occurrence in house.Account.About(Domain.Journal.Subject.Of(brood.Id)))
        {
            var line = occurrence.Fact switch
            {
                AnimalSeenBerried { AgeUnknown: true } => words["brood.sign.unknown"],
                AnimalSeenBerried => words[lines.Count == 0 ? "brood.sign.berried" : "brood.sign.carried"],
                EggsObserved seen => Look(seen, words),
                EggsDropped => words["brood.sign.dropped"],
                AnimalIsolated => words["brood.sign.isolated"],
                Domain.Larvae.HatchingSeen => words["brood.sign.larvae"],
                Domain.Larvae.CollectionMade { Number: { } number } => words["brood.sign.collected", number],
                Domain.Larvae.CollectionMade => words["brood.sign.collectedSome"],
                Domain.Larvae.CrossingMade { Number: { } number } made => words[
                    "brood.sign.crossed",
                    number,
                    naming.Of(house, made.To)
                ],
                Domain.Larvae.CrossingMade made => words["brood.sign.crossedSome", naming.Of(house, made.To)],
                _ => null,
            };
            if (line is not null)
            {
                lines.Add(new(occurrence.Happened.Latest, line, occurrence.Id));
            }
        }

        lines.Reverse();
        return lines;
    }

    private static string Look(EggsObserved seen, Words words)
    {
        List<string> parts = [];
        void Say(bool? told, string yes, string no)
        {
            if (told is { } sure)
            {
                parts.Add(words[sure ? yes : no]);
            }
        }

        Say(seen.Eyed, "brood.sign.eyed", "brood.sign.notEyed");
        if (seen.Colour is { } colour)
        {
            parts.Add(words[$"brood.sign.{colour}"]);
        }

        Say(seen.Saddle, "brood.sign.saddle", "brood.sign.noSaddle");
        if (parts.Count == 0 || seen.Carried is false)
        {
            Say(seen.Carried ?? true, "brood.sign.carried", "brood.sign.gone");
        }

        return string.Join(", ", parts);
    }
}
