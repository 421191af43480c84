using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Threading.RateLimiting;
using Broodtide.Workbench.People;

namespace Broodtide.Server.People;

/// <summary>
/// How often somebody may try to come in, by the framework's own limiter: counted by address for everything that takes
/// a secret, and by name for signing in, whether such a name is in the house or not.
/// </summary>
internal sealed class Tries : IDisposable
{
    public const string ByAddress = "tries-by-address";

    /// <summary>Tries from one address in five minutes; decided.</summary>
    public const int AddressTries = 30;

    /// <summary>Tries for one name in a quarter of an hour; decided.</summary>
    public const int NameTries = 10;

    private static readonly TimeSpan AddressWindow = TimeSpan.FromMinutes(5);
    private static readonly TimeSpan NameWindow = TimeSpan.FromMinutes(15);

    private readonly PartitionedRateLimiter<string> _names = PartitionedRateLimiter.Create<string, string>(
        name =>
            RateLimitPartition.GetSlidingWindowLimiter(
                PersonName.KeyOf(name),
                _ => Window(NameTries, NameWindow)
            )
    );

    /// <summary>Whether this name may be tried once more.</summary>
    public bool MayTry(string name)
    {
        using var lease = _names.AttemptAcquire(name);
        return lease.IsAcquired;
    }

    /// <summary>How long somebody waits at most until there is a try again.</summary>
    public static int NameWaitSeconds => (int)NameWindow.TotalSeconds;

    public void Dispose() => _names.Dispose();

    public static void Add(IServiceCollection services) =>
        services
            .AddSingleton<Tries>()
            .AddRateLimiter(limits =>
            {
                limits.AddPolicy(
                    ByAddress,
                    context =>
                        RateLimitPartition.GetSlidingWindowLimiter(
                            AddressOf(context.Connection.RemoteIpAddress),
                            _ => Window(AddressTries, AddressWindow)
                        )
                );
                limits.OnRejected = async (rejected, cancel) =>
                {
                    var seconds = (int)AddressWindow.TotalSeconds;
                    rejected.HttpContext.Response.Headers.RetryAfter = seconds.ToString(
                        CultureInfo.InvariantCulture
                    );
                    await rejected.HttpContext.RefuseAsync(
                        StatusCodes.Status429TooManyRequests,
                        "too-many-tries",
                        seconds / 60
                    );
                };
            });

    private static SlidingWindowRateLimiterOptions Window(int tries, TimeSpan window) =>
        new()
        {
            PermitLimit = tries,
            Window = window,
            SegmentsPerWindow = 5,
            QueueLimit = 0,
        };

    // Whoever has one address of the sixth version has the whole network behind its first half.
    private static string AddressOf(IPAddress? address) =>
        address is null ? ""
        : address.IsIPv4MappedToIPv6 ? address.MapToIPv4().ToString()
        : address.AddressFamily is AddressFamily.InterNetworkV6
            ? Convert.ToHexString(address.GetAddressBytes().AsSpan(0, 8))
        : address.ToString();
}
