namespace Broodtide.Science;

/// <summary>One piece after another, on the thread that asks: what is done where no hands were given.</summary>
internal sealed class OneHand : IManyHands
{
    private OneHand() { }

    public static OneHand Only { get; } = new();

    public int Hands => 1;

    public void Do(int pieces, Action<int> piece)
    {
        for (var i = 0; i < pieces; i++)
        {
            piece(i);
        }
    }
}
