using System.Runtime.ExceptionServices;
using Broodtide.Science;

namespace Broodtide.Cli.Door;

/// <summary>The cores of this machine, or some of them.</summary>
/// <param name="hands">How many pieces are done at the same time, 1 or more.</param>
internal sealed class MachineHands(int hands) : IManyHands
{
    /// <summary>All of them.</summary>
    public static MachineHands All { get; } = new(Environment.ProcessorCount);

    public int Hands => hands;

    public void Do(int pieces, Action<int> piece)
    {
        var failed = new ExceptionDispatchInfo?[pieces];
        Parallel.For(
            0,
            pieces,
            new ParallelOptions { MaxDegreeOfParallelism = hands },
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
