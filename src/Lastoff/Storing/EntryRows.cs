using System.Data;
using System.Data.Common;
using Lastoff.Core.Ledger;

namespace Lastoff.Storing;

/// <summary>An entry that was not here before, and its place among all that arrived.</summary>
internal sealed record KeptRow(long Arrival, Guid Job, Entry Entry);

/// <summary>The statements by which entries come into one workshop of a database, prepared on one connection.</summary>
internal abstract class EntryRows(DbConnection connection, int workshop)
{
    private readonly List<DbCommand> _prepared = [];

    /// <summary>What is run from now on belongs to this transaction.</summary>
    public void Join(DbTransaction transaction) => _prepared.ForEach(command => command.Transaction = transaction);

    /// <summary>What the records hold beside what was sent, and the number of the last entry that arrived. Nobody else changes either until the transaction ends.</summary>
    public abstract (Chains Chains, long Arrived) Look(IReadOnlyList<SentEntries> group);

    /// <summary>Writes entries down, in the order in which they arrived.</summary>
    /// <param name="rows">At least one.</param>
    public abstract void Keep(IReadOnlyList<KeptRow> rows);

    /// <summary>A statement that also knows <c>@workshop</c>.</summary>
    protected DbCommand Prepared(string text, params ReadOnlySpan<(string Name, DbType Type)> names)
    {
        var command = connection.Command(text);
        foreach (var (name, type) in names)
        {
            var parameter = command.CreateParameter();
            (parameter.ParameterName, parameter.DbType) = (name, type);
            command.Parameters.Add(parameter);
        }

        var number = command.CreateParameter();
        (number.ParameterName, number.DbType, number.Value) = ("@workshop", DbType.Int32, workshop);
        command.Parameters.Add(number);
        command.Prepare();
        _prepared.Add(command);
        return command;
    }

    /// <summary>The statement with these values, in the order of its names.</summary>
    protected static DbCommand With(DbCommand command, params ReadOnlySpan<object> values)
    {
        for (var i = 0; i < values.Length; i++)
        {
            command.Parameters[i].Value = values[i];
        }

        return command;
    }
}
