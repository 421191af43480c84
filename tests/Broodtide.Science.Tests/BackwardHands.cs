namespace Broodtide.Science.Tests;

/// <summary>Does the last piece first, and counts what it did: the order may not be seen in what comes of it.</summary>
internal sealed class BackwardHands(int hands) : IManyHands
{
    public int Hands => hands;

    public int Done { get; private set; }

    public void Do(int pieces, Action<int> piece)
    {
        for (var i = pieces - 1; i >= 0; i--)
        {
            piece(i);
            Done++;
        }
    }
}
