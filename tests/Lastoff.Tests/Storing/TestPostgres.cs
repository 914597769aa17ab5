namespace Lastoff.Tests.Storing;

/// <summary>The PostgreSQL that <c>./test</c> starts. Without it these tests fail: the second store is not optional.</summary>
internal static class TestPostgres
{
    /// <exception cref="InvalidOperationException">It was not started.</exception>
    public static string Connection => Environment.GetEnvironmentVariable("LASTOFF_TEST_POSTGRES") is { Length: > 0 } connection
        ? connection
        : throw new InvalidOperationException("LASTOFF_TEST_POSTGRES says of no PostgreSQL; run ./test, or `LASTOFF_TEST_POSTGRES=$(tests/postgres-cluster start DIR)` before the tests.");

    /// <summary>The options for a workshop that no other test has.</summary>
    public static IReadOnlyList<string> NewWorkshop() => ["--postgres", Connection, "--workshop", $"test {Guid.NewGuid()}"];
}
