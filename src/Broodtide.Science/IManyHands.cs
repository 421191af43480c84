namespace Broodtide.Science;

/// <summary>
/// Who can do several pieces of work at the same time. This library starts no threads: whoever runs on a machine with several cores hands in
/// some of them.
/// </summary>
public interface IManyHands
{
    /// <summary>How many pieces can be done at the same time, 1 or more.</summary>
    int Hands { get; }

    /// <summary>Does each piece once, in any order and at most so many at a time as there are hands, and returns when all are done.</summary>
    /// <param name="pieces">How many, 0 or more.</param>
    /// <param name="piece">
    /// Does one, by its number from 0; pieces touch nothing of each other. What one throws is thrown on as it is.
    /// </param>
    void Do(int pieces, Action<int> piece);
}
