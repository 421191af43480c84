namespace Broodtide.Science.Trials;

/// <summary>One vessel of a trial.</summary>
/// <param name="Block">Its block from 1 on: larvae of one hatch on one shelf.</param>
/// <param name="Place">Its place within the block from 1 on.</param>
/// <param name="Treatment">Which treatment it gets, from 0 on.</param>
public readonly record struct DealtVessel(int Block, int Place, int Treatment);

/// <summary>
/// Deals treatments to vessels by chance, each treatment as often as the others within each block (randomised blocks,
/// Fisher 1935, The Design of Experiments, section 22). The seed is kept so that anybody can deal again and see that it
/// was chance.
/// </summary>
public static class TrialLayout
{
    /// <summary>Deals.</summary>
    /// <param name="treatments">How many treatments, the control among them, 2 to 20.</param>
    /// <param name="blocks">How many blocks, 1 to 100.</param>
    /// <param name="replicates">Vessels of each treatment in a block, 1 to 100.</param>
    /// <param name="seed">The seed.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static IReadOnlyList<DealtVessel> Deal(int treatments, int blocks, int replicates, int seed)
    {
        Units.Finite.Within(treatments, 2, 20);
        Units.Finite.Within(blocks, 1, 100);
        Units.Finite.Within(replicates, 1, 100);
        var random = new Random(seed);
        var dealt = new List<DealtVessel>(treatments * blocks * replicates);
        for (var block = 1; block <= blocks; block++)
        {
            int[] order = [.. Enumerable.Range(0, treatments * replicates).Select(i => i % treatments)];
            random.Shuffle(order);
            dealt.AddRange(order.Select((treatment, i) => new DealtVessel(block, i + 1, treatment)));
        }

        return dealt;
    }
}
