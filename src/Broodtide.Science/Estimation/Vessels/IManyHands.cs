namespace Broodtide.Science.Estimation.Vessels;

/// <summary>
/// Who can do several pieces of work at the same time. This library starts no threads: whoever runs on a machine with several cores hands in
/// some of them.
/// </summary>
public interface IManyHands
{
    /// <summary>How many pieces can be done at the same time, 1 or more.</summary>
    int Hands { get; }

    /// <summary>Does each piece once, in any order, and returns when all are done.</summary>
    /// <param name="pieces">How many.</param>
    /// <param name="piece">Does one, by its number from 0; pieces touch nothing of each other.</param>
    void Do(int pieces, Action<int> piece);
}
