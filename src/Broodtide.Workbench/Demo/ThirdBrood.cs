using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Keeping;

namespace Broodtide.Workbench.Demo;

/// <summary>The invented third brood: carried, and waited for.</summary>
internal static class ThirdBrood
{
    public static void Tell(StoryTeller story, Household house)
    {
        var brood = new BroodId(story.Identity());
        var run = new RunId(story.Identity());
        story.Tell(story.At(-18, 21), new AnimalSeenEmpty(house.Berta));
        story.Tell(story.At(-16, 7, 30), new AnimalSeenBerried(house.Berta, brood, "Brood 3"));
        story.Tell(story.At(-16, 7, 40), new RunStarted(run, brood, "Brood 3", InventedHouse.Species));
        story.Tell(story.At(-9, 22), new EggsObserved(brood, Carried: true, Eyed: false));
        story.Tell(story.At(-2, 22), new EggsObserved(brood, Carried: true, Eyed: false));
    }
}
