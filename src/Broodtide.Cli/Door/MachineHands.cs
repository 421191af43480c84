using System.Runtime.ExceptionServices;
using Broodtide.Science.Estimation.Vessels;

namespace Broodtide.Cli.Door;

/// <summary>The cores of this machine.</summary>
internal sealed class MachineHands : IManyHands
{
    private MachineHands() { }

    /// <summary>All of them.</summary>
    public static MachineHands All { get; } = new();

    public int Hands => Environment.ProcessorCount;

    public void Do(int pieces, Action<int> piece)
    {
        var failed = new ExceptionDispatchInfo?[pieces];
        Parallel.For(
            0,
            pieces,
            i =>
            {
                try
                {
                    piece(i);
                }
                catch (Exception failure)
                {
                    // Told as if it had been run alone: whoever asked knows what to say of it.
                    failed[i] = ExceptionDispatchInfo.Capture(failure);
                }
            }
        );
        failed.FirstOrDefault(one => one is not null)?.Throw();
    }
}
